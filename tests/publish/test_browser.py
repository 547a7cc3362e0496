"""Looks at real pages in a real browser, as a reader, a phone, a printer and a screen reader do.

The rules for people who cannot see or use a mouse are those of axe-core, which follows WCAG 2.2
(W3C). The tests skip where no Chromium is installed.
"""

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, sync_playwright

from buttonstudy.publish.report import make_report

CHROMIUM = next(filter(None, map(shutil.which, ("chromium", "chromium-browser", "chrome"))), "")
PAGES = ("index.html", "sizes.html", "problems.html")
A4_PRINTABLE = (210 - 32, 297 - 36)  # mm, less the margins of style.css
MM = 96 / 25.4  # CSS pixels

pytestmark = [
    pytest.mark.skipif(not CHROMIUM, reason="no Chromium is installed"),
    # Playwright's own event loop is still open when it is asked to close its pipes.
    pytest.mark.filterwarnings("ignore::ResourceWarning"),
]


@pytest.fixture(scope="module")
def report(tmp_path_factory) -> Path:
    result = make_report([], tmp_path_factory.mktemp("browser") / "demo", notebooks=["sizes"])
    assert result.finished
    return result.folder


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with sync_playwright() as playwright:
        opened = playwright.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox"])
        yield opened
        opened.close()


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    opened = browser.new_page()
    yield opened
    opened.close()


def show(page: Page, report: Path, name: str) -> None:
    page.goto((report / name).as_uri())


@pytest.mark.parametrize("name", PAGES)
def test_a_page_asks_for_nothing_and_complains_of_nothing(page, report, name) -> None:
    asked, said = [], []
    page.on("request", lambda request: asked.append(request.url))
    page.on("console", lambda message: said.append(message.text))
    page.on("pageerror", lambda error: said.append(str(error)))
    show(page, report, name)
    assert [url for url in asked if not url.startswith("data:")] == [(report / name).as_uri()]
    assert said == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("name", PAGES)
def test_a_page_has_no_serious_fault_for_people_with_disabilities(
    page, report, name, scheme
) -> None:
    page.emulate_media(color_scheme=scheme)
    show(page, report, name)
    found = Axe().run(page).response["violations"]
    told = [(one["id"], one["nodes"][0]["html"][:200]) for one in found]
    assert told == []


@pytest.mark.parametrize("name", PAGES)
def test_nothing_is_wider_than_a_phone(page, report, name) -> None:
    page.set_viewport_size({"width": 360, "height": 740})
    show(page, report, name)
    assert page.evaluate("document.documentElement.scrollWidth") <= 360


@pytest.mark.parametrize("name", PAGES)
def test_every_link_leads_somewhere(page, report, name) -> None:
    show(page, report, name)
    links = page.eval_on_selector_all("a[href]", "all => all.map(a => a.getAttribute('href'))")
    assert links
    for link in links:
        file, _, anchor = link.partition("#")
        assert not file or (report / file).is_file(), link
        if anchor and not file:
            assert page.locator(f"[id='{anchor}']").count() == 1, link


def test_no_figure_is_cut_on_a4_paper(page, report) -> None:
    page.emulate_media(media="print")
    width, height = (round(side * MM) for side in A4_PRINTABLE)
    page.set_viewport_size({"width": width, "height": height})
    show(page, report, "sizes.html")
    boxes = page.eval_on_selector_all(
        ".figure-box img",
        "all => all.map(one => [one.getBoundingClientRect().right, one.clientHeight])",
    )
    assert len(boxes) >= 4
    assert all(right <= width and tall <= height for right, tall in boxes)


def test_a_table_is_sorted_by_a_click_and_comes_back_with_the_third(page, report) -> None:
    show(page, report, "sizes.html")
    table = page.locator("table").first
    heading = table.locator("thead th", has_text="Buttons")
    place = heading.evaluate("cell => cell.cellIndex") + 1
    cells = table.locator(f"tbody tr > :nth-child({place})")
    first = cells.all_inner_texts()
    numbers = [int(text) for text in first]
    orders = []
    for _ in range(3):
        heading.locator("button").click()
        orders.append((heading.get_attribute("aria-sort"), cells.all_inner_texts()))
    assert orders[0] == ("ascending", [str(number) for number in sorted(numbers)])
    assert orders[1] == ("descending", [str(number) for number in sorted(numbers, reverse=True)])
    assert orders[2] == ("none", first)


def test_a_figure_is_enlarged_and_put_back_without_a_mouse(page, report) -> None:
    show(page, report, "sizes.html")
    button = page.locator("button.enlarge").first
    assert button.get_attribute("aria-label") == "Enlarge figure 1"
    button.press("Enter")
    enlarged = page.locator("dialog.enlarged img")
    small = page.locator(".figure-box img").first.bounding_box()
    assert enlarged.bounding_box()["width"] > 1.3 * small["width"]
    assert enlarged.get_attribute("alt")
    page.keyboard.press("Escape")
    assert page.locator("dialog").count() == 0


def test_a_page_is_whole_without_its_script(browser, report) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    show(page, report, "sizes.html")
    assert page.locator("figure img").count() >= 4
    assert page.locator("table").count() >= 4
    context.close()
