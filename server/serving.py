"""Answering in the browser."""

from __future__ import annotations

import errno
import socket
import sys
from contextlib import closing, suppress
from gettext import gettext as _

import uvicorn
from sqlalchemy.exc import ArgumentError, OperationalError

from server.accounts.person import Role
from server.app import create_app
from server.clock import utc_now
from server.first_start import prepare
from server.pages.access import WITHOUT_ENCRYPTION
from server.settings import Settings
from server.storage.database import Database


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
    try:
        database = Database(Settings().database_url)
        links = prepare(database, utc_now)
    except (ArgumentError, OperationalError) as error:
        listener.close()
        print(_no_database(error), file=sys.stderr)
        return 1
    _welcome(host, port, links)
    # the access log would print addresses, and addresses may carry secrets
    app = create_app(database, utc_now)
    config = uvicorn.Config(app, log_level="warning", access_log=False, lifespan="off")
    with closing(database), suppress(KeyboardInterrupt):
        uvicorn.Server(config).run(sockets=[listener])
    return 0


def _welcome(host: str, port: int, links: list[tuple[Role, str]]) -> None:
    """Say where to look. links: a token for each person of the new demo firm."""
    shown = f"[{host}]" if ":" in host else host
    address = f"http://{shown}:{port}/"
    print(_("Warmside answers. Open {address} in a browser.").format(address=address))
    print(_("The demo house, compared: {address}demo").format(address=address))
    roles = {"contractor": _("contractor"), "lead": _("lead")}
    for role, token in links:
        words = _("Sign in as {role}: {address}sign-in/{token} (works once)")
        print(words.format(role=roles[role], address=address, token=token))
    if host not in WITHOUT_ENCRYPTION:
        print(_("From other devices people can only sign in through HTTPS in front of Warmside."))
    print(_("Stop with Ctrl-C."), flush=True)


def _no_database(error: ArgumentError | OperationalError) -> str:
    # the address of the database is left out: it may hold a password
    reason = error.orig if isinstance(error, OperationalError) else _("its address is no address")
    return _("The database cannot be opened: {reason}").format(reason=reason)


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
