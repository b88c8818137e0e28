"""Packs to look at: the demonstration job's, and one of a hostile job."""

from pathlib import Path

from click.testing import CliRunner

from elevations.answers import InWords
from elevations.commands.approve import command as approve_command
from elevations.commands.pack import command

DEMO = Path("specs/quillback-lock-cottage.yaml").resolve()
HOSTILE = "</svg><script>alert(1)</script>&\"'=1+1 {{70707*3}} <img src=x onerror=alert(1)>"
JOB = """\
job: {site: %(hostile)s, client: %(hostile)s, reference: %(hostile)s, revision: A}
glass: {clear: {make_up: 4/20/4}}
windows:
  - mark: "</svg>{{70707*3}}"
    location: %(hostile)s
    finish: {outside: %(hostile)s, inside: RAL 9016}
    frame: {width: 700, height: 900}
    lights: [{light: top-hung}]
"""


def run(*arguments, **more):
    cli = InWords("elevations")
    cli.add_command(command, "pack")
    cli.add_command(approve_command, "approve")
    return CliRunner().invoke(cli, arguments, catch_exceptions=False, **more)


def packed(folder, job, *more):
    done = run("pack", str(job), "--out", str(folder), "--format", "html", *more)
    assert done.exit_code == 0, done.output
    return Path(done.stdout.strip())
