"""Windows for the tests of checks: a few lines of YAML in, the results of one rule out."""

from textwrap import dedent, indent

from elevations.catalogue.load import find_system
from elevations.checks import RULES
from elevations.checks.rule import Case
from elevations.checks.rules_file import load_rules
from elevations.geometry.resolve import resolve_job
from elevations.spec.load import parse_job

GLASS = "clear: {make_up: 4/20/4, gas: argon, low_e: {face: 3, emissivity: 0.03}, spacer: warm-edge}"
SAFE = "make_up: 4/20/4, toughened: [outer, inner]"


def case_of(window, building="", glass=GLASS, system="flush-70", rules="england", beside=None):
    """The case of one window, W1: the lines of its block without the leading dash."""
    text = f"glass:\n{indent(dedent(glass).strip(), '  ')}\ndefaults: {{system: {system}, glass: {glass.strip().split(':')[0]}}}\n"
    text += f"building: {{{building}}}\nwindows:\n  - mark: W1\n{indent(dedent(window).strip(), '    ')}\n"
    job = parse_job(text, "job.yaml").job
    (resolved,) = resolve_job(job, lambda name: find_system(name, beside))
    country = load_rules(rules) if isinstance(rules, str) else rules
    return Case(resolved, job.windows[0], job.building, country)


def check(rule, window, building="", **more):
    """Every result of one rule about one window."""
    return list(RULES[rule].check(case_of(window, building, **more)))


def only(rule, window, building="", **more):
    """The one result of a rule about a window."""
    (result,) = check(rule, window, building, **more)
    return result


def by_words(results, words):
    """The one result whose message holds these words."""
    (result,) = [r for r in results if words in r.message]
    return result
