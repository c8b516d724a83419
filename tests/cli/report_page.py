"""What a test asks of the web page that `versolay report` writes.

    report_page.py check PAGE.html REPORT.json    validity, accessibility, numbers
    report_page.py result PAGE.html               what the what-if control shows, as NAME=TEXT

PAGE.html may be a page as it was written or as a browser has it after the script ran.
"""

import json
import re
import sys

import html5lib  # reads as the WHATWG standard says and reports what is not valid

HTML = "{http://www.w3.org/1999/xhtml}"
SVG = "{http://www.w3.org/2000/svg}"
failures = []


def expect(condition, what):
    if not condition:
        failures.append(what)


def text_of(element):
    return "".join(element.itertext())


def elements(tree, *names):
    return [e for e in tree.iter() if e.tag in [HTML + n for n in names]]


def read(path):
    with open(path, encoding="utf-8") as file:
        return file.read()


def check_validity(text):
    parser = html5lib.HTMLParser(strict=False)
    tree = parser.parse(text)
    for position, code, data in parser.errors:
        failures.append(f"not valid HTML at {position}: {code} {data}")
    return tree


def check_self_contained(tree, text):
    for element in tree.iter():
        for name in ("src", "href", "srcset", "poster", "data", "action"):
            value = element.get(name)
            expect(value is None or value.startswith("#"), f"{element.tag} refers to {value}")
    addresses = set(re.findall(r"https?://[^\s\"'<]*", text)) - {"http://www.w3.org/2000/svg"}
    expect(not addresses, f"addresses in the page: {addresses}")
    expect("@import" not in text and "url(" not in text, "the style sheet loads something")


def check_accessibility(tree):
    root = elements(tree, "html")[0]
    expect(root.get("lang") == "en", "no language")
    expect(len(elements(tree, "main")) == 1 and len(elements(tree, "h1")) == 1, "main, h1")
    level = 0
    for heading in elements(tree, "h1", "h2", "h3", "h4"):
        here = int(heading.tag[-1])
        expect(here <= level + 1, f"heading level skipped before {text_of(heading)}")
        expect(text_of(heading).strip(), "an empty heading")
        level = here
    ids = [e.get("id") for e in tree.iter() if e.get("id")]
    expect(len(ids) == len(set(ids)), "an id occurs twice")
    for element in tree.iter():
        for name in ("for", "aria-labelledby", "href"):
            for target in (element.get(name) or "").lstrip("#").split():
                expect(target in ids, f"{name} names {target}, which is not there")
    labelled = {e.get("for") for e in elements(tree, "label")}
    for field in elements(tree, "input", "select"):
        expect(field.get("id") in labelled, f"a field without a label: {field.get('id')}")
    pictures = [e for e in tree.iter() if e.tag == SVG + "svg"]
    expect(pictures, "no pictures")
    for picture in pictures:
        expect(picture.get("role") == "img", "a picture without its role")
        for part in ("title", "desc"):
            words = [text_of(e) for e in picture.iter() if e.tag == SVG + part]
            expect(len(words) == 1 and len(words[0]) > 10, f"a picture without {part}")
    for table in elements(tree, "table"):
        heads = elements(table, "thead")[0]
        expect(all(th.get("scope") == "col" for th in elements(heads, "th")), "heads without scope")
        expect(elements(table, "caption"), "a table without a caption")


def check_words(text):
    body = text[text.index("<body"):]
    for bad in (r"\bnan\b", r"\binf\b", r"(?<![\d.])0\.00 mm", r"(?<![\d.])0\.000 degrees"):
        found = re.search(bad, re.sub(r"<script.*?</script>", "", body, flags=re.S), flags=re.I)
        expect(not found, f"the page says {found and body[found.start() - 40:found.end() + 20]!r}")


def figure(tree, identity):
    found = [e for e in elements(tree, "figure") if e.get("id") == identity]
    return found[0] if found else None


def check_tables(tree, report):
    """The table below a figure is the one of the JSON document."""
    for expected in report["figures"]:
        found = figure(tree, expected["id"])
        if found is None:
            failures.append(f"the figure {expected['id']} is missing")
            continue
        rows = [[text_of(c) for c in row] for row in elements(found, "tr")][1:]
        expect(rows == expected["rows"], f"the table of {expected['id']}: {rows[:2]}")


def value_of(picture, x, y):
    """From a place in a plot back to the numbers that it stands for."""
    of = lambda name: float(picture.get(name))
    return ((x - of("data-x0")) / of("data-per-x"), (y - of("data-y0")) / of("data-per-y"))


def circles(picture, role, filled):
    for group in picture.iter(SVG + "g"):
        if group.get("class") != role:
            continue
        for c in group.iter(SVG + "circle"):
            if (c.get("fill") != "none") == filled:
                yield float(c.get("cx")), float(c.get("cy"))


def near(pairs, expected, tolerance):
    """Every expected point is among the pairs."""
    return all(
        any(abs(x - a) <= tolerance and abs(y - b) <= tolerance for x, y in pairs)
        for a, b in expected
    )


def check_plots(tree, report):
    picture = next(figure(tree, "feeds").iter(SVG + "svg"))
    tolerance = 0.002 / abs(float(picture.get("data-per-x")))  # places are written to a micrometre
    seen = [value_of(picture, *place) for place in circles(picture, "role-before", False)]
    feeds = [f["registration"] for f in report["profile"]["feeds"] if not f.get("left_out")]
    expect(near(seen, [(f["dx_mm"], f["dy_mm"]) for f in feeds], tolerance), "rings of the feeds")
    if "advice" not in report:
        return
    picture = next(figure(tree, "yield").iter(SVG + "svg"))
    lines = [l.get("points") for l in picture.iter(SVG + "polyline") if l.get("stroke-width") == "0.6"]
    points = [tuple(map(float, p.split(","))) for p in lines[0].split()]
    seen = [value_of(picture, *p) for p in points]
    expected = [
        (p["oversize"]["x_mm"], p["expected_good"]["cards_per_sheet"])
        for p in report["advice"]["yield_curve"]
    ]
    expect(near(seen, expected, 0.002), f"the yield curve: {seen} for {expected}")


def check(page, document):
    text = read(page)
    report = json.loads(read(document))
    tree = check_validity(text)
    check_self_contained(tree, text)
    check_accessibility(tree)
    check_words(text)
    check_tables(tree, report)
    check_plots(tree, report)
    expect(report["title"] in [text_of(e) for e in elements(tree, "h1")], "the title")
    for sentence in report["verdict"]:
        expect(sentence in [text_of(e) for e in elements(tree, "p")], f"the verdict: {sentence}")


def result(page):
    tree = html5lib.parse(read(page))
    for output in elements(tree, "output"):
        print(f"{output.get('id')[len('result-'):]}={text_of(output)}")
    for e in tree.iter():
        if e.get("data-test-right"):
            print(f"right={e.get('data-test-right')}")


if sys.argv[1] == "check":
    check(sys.argv[2], sys.argv[3])
else:
    result(sys.argv[2])
for failure in failures:
    print("NOT SO:", failure)
sys.exit(1 if failures else 0)
