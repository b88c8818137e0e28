"""The customer's page in a browser: silent, readable on a phone, on paper and by ear. Looked at by a person before it was held to this."""

import re
import shutil
import subprocess

import pytest


def opened(browser, file, width=1280, **ways):
    context = browser.new_context(viewport={"width": width, "height": 844}, **ways)
    page = context.new_page()
    page.asked = []
    page.on("request", lambda request: page.asked.append(request.url))
    page.goto(file.as_uri())
    return page


@pytest.mark.readers
@pytest.mark.parametrize("which", ["page_file", "hostile_file"])
def test_no_request_leaves_the_page(browser, request, which):
    file = request.getfixturevalue(which)
    page = opened(browser, file, offline=True)
    said = []
    page.on("console", lambda message: said.append(message.text))
    page.on("dialog", lambda dialog: said.append(dialog.message))
    page.reload()
    for control in page.query_selector_all("fieldset label"):
        control.click()
    page.wait_for_timeout(100)
    assert set(page.asked) == {file.as_uri()}
    assert said == []
    page.context.close()


@pytest.mark.readers
@pytest.mark.parametrize("width", [320, 390, 768, 1280])
def test_nothing_is_wider_than_the_screen(browser, page_file, width):
    page = opened(browser, page_file, width)
    assert page.evaluate("document.documentElement.scrollWidth") == width
    wide = page.evaluate("""w => [...document.querySelectorAll('main *')].filter(e => !e.closest('svg')
        && getComputedStyle(e.closest('thead') || e).position != 'absolute' && e.getBoundingClientRect().right > w + 0.5).map(e => e.outerHTML.slice(0, 80))""", width)
    assert wide == []
    page.context.close()


@pytest.mark.readers
def test_the_sides_switch_by_pointer_and_by_keyboard_without_script(browser, page_file):
    page = opened(browser, page_file, 390, java_script_enabled=False)
    outside, inside = page.locator("#window-2 figure.outside"), page.locator("#window-2 figure.inside")
    assert outside.is_visible()
    assert not inside.is_visible()
    page.locator("label[for=window-2-inside]").click()
    assert inside.is_visible()
    assert not outside.is_visible()
    page.locator("#window-2-inside").focus()
    page.keyboard.press("ArrowLeft")
    assert outside.is_visible()
    assert page.locator("#window-1 figure.outside").is_visible()   # the others stay as they were
    page.context.close()


@pytest.mark.readers
def test_what_can_be_pressed_is_large_enough_for_a_finger(browser, page_file):
    # WCAG 2.2, 2.5.8 Target Size (Minimum): 24 by 24 CSS px; links within sentences are exempt
    page = opened(browser, page_file, 390)
    small = page.evaluate("""[...document.querySelectorAll('nav a, fieldset label, .ticks input, .sign input')]
        .map(e => [e.outerHTML.slice(0, 60), e.getBoundingClientRect()]).filter(([, r]) => r.width < 24 || r.height < 24).map(([h]) => h)""")
    assert small == []
    page.context.close()


@pytest.fixture(scope="module")
def axe(tmp_path_factory):
    """axe-core's source, from npm: an accessibility checker that is not ours."""
    npm = shutil.which("npm")
    if npm is None:
        pytest.skip("npm is not installed here, which brings axe-core")
    folder = tmp_path_factory.mktemp("axe")
    done = subprocess.run([npm, "install", "--silent", "--no-save", "--no-audit", "--no-fund", "--ignore-scripts", "--prefix", str(folder), "axe-core@4"],
                          capture_output=True, text=True, check=False, timeout=120)
    file = folder / "node_modules" / "axe-core" / "axe.min.js"
    if not file.exists():
        pytest.skip(f"npm could not bring axe-core: {done.stderr[-200:]}")
    return file.read_text("utf-8")


@pytest.mark.readers
@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [390, 1280])
def test_axe_finds_no_accessibility_fault(browser, page_file, axe, scheme, width):
    page = opened(browser, page_file, width, color_scheme=scheme, bypass_csp=True)
    page.evaluate(axe)
    found = page.evaluate("axe.run()")
    assert len(found["passes"]) > 20
    assert [(v["id"], v["impact"], v["nodes"][0]["html"][:100]) for v in found["violations"]] == []
    page.context.close()


@pytest.mark.readers
def test_axe_would_find_a_fault(browser, page_file, axe, tmp_path):
    broken = tmp_path / "broken.html"
    broken.write_text(page_file.read_text("utf-8").replace('<label for="sign-name">Name</label>', "").replace("--ink: #26221d", "--ink: #bbb"), "utf-8")
    page = opened(browser, broken, bypass_csp=True)
    page.evaluate(axe)
    assert {"label", "color-contrast"} <= {v["id"] for v in page.evaluate("axe.run()")["violations"]}
    page.context.close()


def luminance(rgb):
    # WCAG 2.2, relative luminance
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in (v / 255 for v in rgb)]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(a, b):
    # WCAG 2.2, contrast ratio
    high, low = sorted((luminance(a), luminance(b)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def test_the_contrast_formula_gives_the_known_extremes():
    # WCAG 2.2: black on white is 21:1, a colour on itself 1:1
    assert contrast((0, 0, 0), (255, 255, 255)) == pytest.approx(21)
    assert contrast((9, 99, 199), (9, 99, 199)) == 1


COLOURS = """[...document.querySelectorAll('body *')].filter(e => !e.closest('svg') && [...e.childNodes].some(n => n.nodeType == 3 && n.data.trim())
    && e.getClientRects().length).map(e => {
        let b = e; while (b && getComputedStyle(b).backgroundColor == 'rgba(0, 0, 0, 0)') b = b.parentElement;
        const rgb = c => c.match(/[0-9.]+/g).map(Number).slice(0, 3);
        return [e.textContent.trim().slice(0, 40), rgb(getComputedStyle(e).color), b ? rgb(getComputedStyle(b).backgroundColor) : [255, 255, 255]]})"""


@pytest.mark.readers
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_every_text_stands_out_from_what_is_under_it(browser, page_file, scheme):
    # WCAG 2.2, 1.4.3 Contrast (Minimum): 4.5 to 1
    page = opened(browser, page_file, color_scheme=scheme)
    found = page.evaluate(COLOURS)
    assert len(found) > 100
    assert [(text, round(contrast(ink, paper), 2)) for text, ink, paper in found if contrast(ink, paper) < 4.5] == []
    page.context.close()


@pytest.mark.readers
def test_text_in_the_pictures_stands_out_and_can_be_read_on_a_phone(browser, page_file):
    page = opened(browser, page_file, 390)
    sizes = page.evaluate("""[...document.querySelectorAll('.picture svg text')].filter(t => t.getClientRects().length && t.closest('figure').getClientRects().length)
        .map(t => t.getBoundingClientRect().height)""")
    assert len(sizes) > 20
    assert min(sizes) > 9   # CSS px of the line; capitals come to over 5.5
    page.context.close()


@pytest.mark.readers
def test_on_paper_drawings_and_ruler_are_true(browser, page_file, tmp_path):
    """Measured as laid out for print (CSS: 96 px are 25.4 mm), then on the printed PDF's own lines."""
    page = opened(browser, page_file)
    page.emulate_media(media="print")
    mm = 25.4 / 96
    frame = page.evaluate("document.querySelector('#w6o-outside-frame path').getBoundingClientRect().toJSON()")
    assert frame["width"] * mm == pytest.approx(1200 / 20, abs=0.05)
    assert frame["height"] * mm == pytest.approx(1050 / 20, abs=0.05)
    for side in ("outside", "inside"):
        assert page.locator(f"#window-6 figure.{side}").is_visible()
    page.context.close()
    page = opened(browser, page_file)
    file = tmp_path / "printed.pdf"
    page.pdf(path=str(file), prefer_css_page_size=True)
    page.context.close()
    pdf = pytest.importorskip("pypdfium2").PdfDocument(file)
    last = pdf[len(pdf) - 1]
    assert (round(last.get_width() * 25.4 / 72), round(last.get_height() * 25.4 / 72)) == (210, 297)
    # 10 dots a millimetre; the ruler's base line is the longest dark run of its length on the page
    image = last.render(scale=254 / 72, grayscale=True).to_pil()
    runs = [len(run) for y in range(image.height) for run in re.findall(rb"[\x00-\x60]+", image.crop((0, y, image.width, y + 1)).tobytes())]
    assert any(abs(run - 1000) <= 5 for run in runs)


@pytest.mark.readers
def test_on_paper_no_page_cuts_a_picture_and_each_window_is_on_one_page(browser, page_file, tmp_path):
    file = tmp_path / "printed.pdf"
    page = opened(browser, page_file)
    page.pdf(path=str(file), prefer_css_page_size=True)
    page.context.close()
    texts = [p.extract_text() for p in pytest.importorskip("pypdf").PdfReader(file).pages]
    for mark in range(1, 9):
        (own,) = [text for text in texts if f"Window W{mark}" in text]
        for words in ("From outside", "From inside", "How it opens", "Glass", "Colours", "Design"):
            assert words in own, (mark, words)
