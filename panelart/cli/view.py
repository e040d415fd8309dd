"""`panelart view`: the panel on a local page that redraws, explains and edits."""

from __future__ import annotations

import datetime as dt
import ipaddress
import sys
from typing import Annotated

from panelart.cli.declaring import command, option
from panelart.cli.exits import EXIT_WRITE, end
from panelart.cli.options import Spec
from panelart.cli.usage import refuse
from panelart.cli.values import text, whole_number
from panelart.messages import cli as said
from panelart.messages import cli_help_panel as help_


@command(help_.view_runs(), extra="page", extensions=True)
def view(
    spec: Spec,
    open_: Annotated[bool, option("--open", help_.open_page())] = False,
    port: Annotated[
        int | None, option("--port", help_.port(), whole_number(minimum=1, maximum=65535, metavar="PORT"))
    ] = None,
    bind: Annotated[str, option("--bind", help_.bind(), text("ADDRESS"))] = "127.0.0.1",
    lan: Annotated[bool, option("--lan", help_.lan())] = False,
) -> None:
    """Show and edit a panel in the browser."""
    from panelart.spec.read import panel_names
    from panelart.viewer import address

    if not spec.is_file():
        refuse("", said.not_a_file(spec), said.accepted_spec())
    if panel_names(spec):
        refuse("", said.several_panels(spec), said.draw_with_make())
    host = _host(bind, lan=lan)
    try:
        listener = address.listening(host, port)
    except OSError as error:
        print(said.cannot_listen(host, error.strerror or error), file=sys.stderr)
        end(EXIT_WRITE)
    taken = listener.getsockname()[1]
    keys = address.keys(spec, address.kept_secret(address.state_folder()))
    shown = f"[{host}]" if ":" in host else host
    print(said.page_address(spec, f"http://{shown}:{taken}/{keys.edit}/"))
    print(said.page_address_read_only(f"http://{shown}:{taken}/{keys.look}/"))
    print(said.stop_with(), flush=True)
    if open_:
        import webbrowser

        webbrowser.open(f"http://{shown}:{taken}/{keys.edit}/")
    today = dt.datetime.now(tz=dt.UTC).astimezone().date().isoformat()
    from panelart.viewer.serve import serve

    serve(spec, keys, address.names(host, taken), listener, today)


def _host(bind: str, *, lan: bool) -> str:
    """The address to listen on. Raises Refused for one that others reach, unless that is wanted."""
    if bind == "localhost":
        return "127.0.0.1"
    try:
        told = ipaddress.ip_address(bind)
    except ValueError:
        refuse("--bind", said.not_an_address(bind))
    if told.is_loopback:
        return str(told)
    if told.is_unspecified:
        refuse("--bind", said.address_unspecified(), said.give_one_address())
    if not lan:
        refuse("--bind", said.address_of_network(), said.give_lan())
    print(said.page_on_network(), file=sys.stderr)
    return str(told)
