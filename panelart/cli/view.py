"""`panelart view`: the panel on a local page that redraws, explains and edits."""

from __future__ import annotations

import datetime as dt
import ipaddress
import sys
from typing import Annotated

import typer

from panelart.cli.app import Spec, app


@app.command()
def view(
    spec: Spec,
    port: Annotated[
        int | None,
        typer.Option("--port", metavar="PORT", min=1, max=65535, help="By default the first free one from 8747 on."),
    ] = None,
    bind: Annotated[
        str,
        typer.Option("--bind", metavar="ADDRESS", help="An address of this computer other than its own loopback."),
    ] = "127.0.0.1",
    lan: Annotated[
        bool, typer.Option("--lan", help="With --bind: yes, let other computers reach the page, unencrypted.")
    ] = False,
    open_: Annotated[bool, typer.Option("--open", help="Open the page in the browser.")] = False,
) -> None:
    """Show the panel on a page in the browser that follows the file, explains findings, and edits the spec.

    Ends with Ctrl-C. The page reaches this spec only, and only under the address that is printed.
    """
    from panelart.cli import EXIT_SPEC, EXIT_WRITE
    from panelart.spec.read import panel_names
    from panelart.viewer import address

    if not spec.is_file():
        print(f"error: {spec} is no file; accepted: a panel's YAML file", file=sys.stderr)
        raise typer.Exit(EXIT_SPEC)
    if panel_names(spec):
        told = "holds several panels; the page shows and edits specs of one. `panelart make` draws each of them"
        print(f"error: {spec} {told}", file=sys.stderr)
        raise typer.Exit(EXIT_SPEC)
    host = _host(bind, lan=lan)
    try:
        listener = address.listening(host, port)
    except OSError as error:
        print(f"error: cannot listen on {host}: {error.strerror or error}", file=sys.stderr)
        raise typer.Exit(EXIT_WRITE) from None
    taken = listener.getsockname()[1]
    keys = address.keys(spec, address.kept_secret(address.state_folder()))
    shown = f"[{host}]" if ":" in host else host
    print(f"{spec}: http://{shown}:{taken}/{keys.edit}/")
    print(f"for looking only: http://{shown}:{taken}/{keys.look}/")
    print("Ctrl-C ends it", flush=True)
    if open_:
        import webbrowser

        webbrowser.open(f"http://{shown}:{taken}/{keys.edit}/")
    today = dt.datetime.now(tz=dt.UTC).astimezone().date().isoformat()
    from panelart.viewer.serve import serve

    serve(spec, keys, address.names(host, taken), listener, today)


def _host(bind: str, *, lan: bool) -> str:
    """The address to listen on. Raises BadParameter for one that others reach, unless that is wanted."""
    if bind == "localhost":
        return "127.0.0.1"
    try:
        told = ipaddress.ip_address(bind)
    except ValueError:
        raise typer.BadParameter(f"'{bind}' is no IP address", param_hint="--bind") from None
    if told.is_loopback:
        return str(told)
    if told.is_unspecified:
        raise typer.BadParameter(
            "give the one address that the others use; the page answers to no name but its own", param_hint="--bind"
        )
    if not lan:
        raise typer.BadParameter(
            "others on the network could open and change the panel, and read along: say --lan if that is meant",
            param_hint="--bind",
        )
    print("warning: the page is on the network, unencrypted: whoever has an address below can use it", file=sys.stderr)
    return str(told)
