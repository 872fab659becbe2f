"""The commands: serve (the default), compare and sign-in-link."""

from __future__ import annotations

import argparse
import sys
from contextlib import closing
from gettext import gettext as _
from pathlib import Path

DEFAULT_HOST = "127.0.0.1"
DEFAULT_PORT = 8000
BAD_INPUT = 2


def main(arguments: list[str] | None = None) -> int:
    """Run one command; the result is the exit status."""
    options = _parser().parse_args(arguments)
    if options.command == "compare":
        return _compare(options)
    if options.command == "sign-in-link":
        return _sign_in_link(options)
    return _serve(options)


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="python -m server",
        description=_("Warmside: how a whole house is insulated. Without a command it serves."),
    )
    commands = parser.add_subparsers(dest="command", metavar="COMMAND")
    _add_address(parser)
    serve = commands.add_parser("serve", help=_("answer in the browser"))
    _add_address(serve)
    compare = commands.add_parser(
        "compare", help=_("compare a house as found with its strategies, side by side")
    )
    compare.add_argument("file", metavar="FILE", help=_("a house file, or - for standard input"))
    compare.add_argument("--json", action="store_true", help=_("print a comparison file"))
    compare.add_argument(
        "--units", choices=("ip", "si"), default="ip", help=_("units of the table (ip)")
    )
    link = commands.add_parser(
        "sign-in-link", help=_("make a link that signs someone in once, and print it")
    )
    link.add_argument("email", metavar="EMAIL", help=_("whom it signs in"))
    link.add_argument(
        "--site",
        default=f"http://{DEFAULT_HOST}:{DEFAULT_PORT}",
        help=_("the address this site is reached at (%(default)s)"),
    )
    return parser


def _add_address(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--host", default=DEFAULT_HOST, help=_("address to answer on"))
    parser.add_argument("--port", type=_port, default=DEFAULT_PORT, help=_("port to answer on"))


def _port(text: str) -> int:
    if not text.isdecimal() or not 0 < int(text) < 65536:
        raise argparse.ArgumentTypeError(_("a port is a whole number from 1 to 65535"))
    return int(text)


def _compare(options: argparse.Namespace) -> int:
    # neither web nor database packages: a comparison is there in a second
    from server.files.building import read_project
    from server.files.comparison_file import comparison_json
    from server.files.faults import BadFile
    from server.files.findings_text import findings_text
    from server.files.reading import LARGEST_FILE
    from server.files.text_table import text_table
    from server.finding_words.side_by_side import side_by_side
    from server.sheet import sheet

    try:
        if options.file == "-":
            text = sys.stdin.buffer.read(LARGEST_FILE + 1)
        else:
            with Path(options.file).open("rb") as file:
                text = file.read(LARGEST_FILE + 1)
    except OSError as error:
        print(f"{options.file}: {error.strerror}", file=sys.stderr)
        return BAD_INPUT
    try:
        project = read_project(text)
        comparison = project.compare()
    except BadFile as refusal:
        for fault in refusal.faults:
            print(fault, file=sys.stderr)
        return BAD_INPUT
    if options.json:
        print(comparison_json(project))
    else:
        laid_out = sheet(comparison)
        rows = side_by_side(project.judge(comparison), laid_out.columns, options.units)
        print(findings_text(rows, laid_out.columns), end="")
        print(text_table(laid_out, options.units), end="")
    return 0


def _sign_in_link(options: argparse.Namespace) -> int:
    from server.clock import utc_now
    from server.settings import Settings
    from server.storage.database import Database
    from server.storage.people import Accounts, People

    with closing(Database(Settings().database_url)) as database:
        database.migrate()
        with database.session(writing=True) as session:
            found = Accounts(session, utc_now).by_email(options.email)
            if found is not None:
                person, _password_hash = found
                token = People(session, person.firm_key, utc_now).make_link(person.key)
    if found is None:
        words = _("Nobody signs in with the email {email}, or whoever does is kept out.")
        print(words.format(email=options.email), file=sys.stderr)
        return BAD_INPUT
    print(f"{options.site.rstrip('/')}/sign-in/{token}")
    return 0


def _serve(options: argparse.Namespace) -> int:
    from server.serving import serve

    return serve(options.host, options.port)


if __name__ == "__main__":
    sys.exit(main())
