"""`panelart view`: the panel on a local page that redraws, explains and edits."""

from __future__ import annotations

import ipaddress
import sys
from typing import Annotated

from panelart.cli.declaring import command, option
from panelart.cli.options import OpenPage, Port, Spec
from panelart.cli.pages import LOCAL, serve_page
from panelart.cli.usage import refuse
from panelart.cli.values import text
from panelart.messages import cli as said
from panelart.messages import cli_help_panel as help_


@command(help_.view_runs(), extra="page", extensions=True)
def view(
    spec: Spec,
    open_: OpenPage = False,
    port: Port = None,
    bind: Annotated[str, option("--bind", help_.bind(), text("ADDRESS"))] = LOCAL,
    lan: Annotated[bool, option("--lan", help_.lan())] = False,
) -> None:
    """Show and edit a panel in the browser."""
    from panelart.spec.read import panel_names

    if not spec.is_file():
        refuse("", said.not_a_file(spec), said.accepted_spec())
    if panel_names(spec):
        refuse("", said.several_panels(spec), said.draw_with_make())
    serve_page(spec, _host(bind, lan=lan), port, opened=open_)


def _host(bind: str, *, lan: bool) -> str:
    """The address to listen on. Raises Refused for one that others reach, unless that is wanted."""
    if bind == "localhost":
        return LOCAL
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
