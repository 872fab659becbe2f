"""Answering in the browser."""

from __future__ import annotations

import errno
import socket
import sys
from gettext import gettext as _

import uvicorn

from server.app import create_app


def serve(host: str, port: int) -> int:
    """Serve until stopped; the result is the exit status."""
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    listener = socket.socket(family)
    listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listener.bind((host, port))
    except OSError as error:
        listener.close()
        print(_refusal(host, port, error), file=sys.stderr)
        return 1
    shown = f"[{host}]" if ":" in host else host
    address = f"http://{shown}:{port}/"
    print(_("Warmside answers. Open {address} in a browser.").format(address=address))
    print(_("The demo house, compared: {address}demo").format(address=address))
    print(_("Stop with Ctrl-C."), flush=True)
    # the access log would print addresses, and addresses may carry secrets
    config = uvicorn.Config(create_app(), log_level="warning", access_log=False, lifespan="off")
    uvicorn.Server(config).run(sockets=[listener])
    return 0


def _refusal(host: str, port: int, error: OSError) -> str:
    if error.errno == errno.EADDRINUSE:
        words = _(
            "Port {port} on {host} is in use, perhaps by another Warmside. "
            "Stop that one, or choose another port: python -m server --port {other}"
        )
        return words.format(port=port, host=host, other=port + 1 if port < 65535 else 8000)
    if error.errno == errno.EACCES:
        return _("Port {port} needs administrator rights; choose one above 1023.").format(port=port)
    return _("Cannot answer on {host}, port {port}: {words}").format(
        host=host, port=port, words=error.strerror
    )
