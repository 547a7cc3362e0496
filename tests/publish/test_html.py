import json

from buttonstudy.publish.html import notebook_body

PNG = "iVBORw0KGgo="


def code(*outputs, source="bs.look()"):
    return {"cell_type": "code", "metadata": {}, "source": source, "outputs": list(outputs)}


def display(data, **record):
    metadata = {"buttonstudy": record} if record else {}
    return {"output_type": "display_data", "data": data, "metadata": metadata}


def figure(**more):
    told = {
        "kind": "figure",
        "number": 1,
        "name": "a",
        "caption": "<b>One</b>",
        "alt": '"Up" & <down>',
        "files": ["figures/a.png", "figures/a.svg"],
    }
    return display({"image/png": PNG}, **(told | more))


def body(tmp_path, *cells):
    path = tmp_path / "a.ipynb"
    path.write_text(json.dumps({"cells": list(cells), "metadata": {}}), encoding="utf-8")
    return notebook_body(path)


def test_a_figure_keeps_its_words_and_leads_to_its_files(tmp_path):
    html = body(tmp_path, code(figure(), display({"text/html": "again"}, kind="caption"))).body
    assert 'alt="&#34;Up&#34; &amp; &lt;down&gt;"' in html
    assert "&lt;b&gt;One&lt;/b&gt;" in html
    assert '<a href="figures/a.svg" aria-label="Figure 1 as SVG">SVG</a>' in html
    assert "again" not in html


def test_a_notebook_cannot_lead_to_files_outside_its_report(tmp_path):
    files = [
        "https://example.org/a.png",
        "figures/../../a.png",
        "javascript:x.png",
        "figures/a.exe",
    ]
    assert "href" not in body(tmp_path, code(figure(files=files))).body


def test_code_is_kept_apart_and_errors_and_warnings_are_not_shown(tmp_path):
    error = {"output_type": "error", "ename": "KeyError", "evalue": "x", "traceback": ["deep"]}
    warning = {"output_type": "stream", "name": "stderr", "text": "Warning!"}
    found = body(tmp_path, code(error, warning, source=["a = '<b>'\n", "a"]))
    assert found.body.strip() == ""
    assert found.code == ("a = '<b>'\na",)


def test_other_outputs_are_shown_as_they_are(tmp_path):
    printed = {"output_type": "stream", "name": "stdout", "text": ["<i>1</i>\n", "2"]}
    plain = display({"text/plain": "<repr>"})
    table = display({"text/html": ["<table>", "</table>"], "text/plain": "t"})
    drawing = display({"image/svg+xml": "<svg/>", "text/plain": "s"})
    html = body(tmp_path, code(printed, plain, table, drawing)).body
    assert "<pre>&lt;i&gt;1&lt;/i&gt;\n2</pre>" in html
    assert "<pre>&lt;repr&gt;</pre>" in html
    assert "<table></table>" in html
    assert 'src="data:image/svg+xml;base64,' in html
    assert "no description" in html


def test_the_lead_is_the_first_result_else_the_first_words(tmp_path):
    prose = {"cell_type": "markdown", "metadata": {}, "source": "# Title\n\nWords of the author."}
    said = code(display({"text/html": "x"}, kind="say", sentences=["Of 3 sets, 2.", "More."]))
    assert body(tmp_path, prose, said).leads == ("Of 3 sets, 2.",)
    main = code(display({"text/html": "x"}, kind="say", sentences=["A.", "B."], announced="A. B."))
    assert body(tmp_path, prose, said, main).leads == ("A. B.", "Of 3 sets, 2.", "A.")
    assert body(tmp_path, prose).leads == ("Words of the author.",)
    assert body(tmp_path).leads == ()
