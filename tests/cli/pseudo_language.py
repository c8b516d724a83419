"""A language in which every text is recognised: the letters of the English, in Cyrillic shape.

  make CATALOGUE.pot OUT.po [MSGID TRANSLATION]   the catalogue of that language, one text otherwise
  check FILE WORD...     names the words in Latin letters of a text or a web page, but for WORDs,
                         units, options and commands to type
  same FILE OTHER        two JSON documents: the same but for sentences
"""
import html
import json
import re
import sys

# A placeholder and an escape are no letters of the text.
KEPT = re.compile(r'(\{[^}]*\}|\\.)')
UNITS = {"mm", "px", "ppi", "dpi", "um", "mrad", "x", "s", "P", "V", "N", "MM", "DPI", "PPI", "WxH", "CxR"}
# Files, commands, options and their values: what is typed, or named by whoever reads.
TYPED = re.compile(
    r'\S+\.(json|pdf|csv|png|svg|html|txt)\b|/[a-z_0-9/]+|--[a-z-]+( \d\S*| auto)?'
    r'|versolay( [a-z]+)?( +\S*[-./=<>"*|\\]\S*| [A-Z]+\b| [a-z0-9-]+(?= --)| auto)*'
    r'|\b(long|short)-edge\b|\b[aA][34]\b|\b(equal|proportional|per-axis)\b|[a-z0-9-]+ \d+(\.\d+)?x\d+')


def shaped(text):
    def shape(letter):
        if "a" <= letter <= "z":
            return chr(0x430 + ord(letter) - ord("a"))
        if "A" <= letter <= "Z":
            return chr(0x410 + ord(letter) - ord("A"))
        return letter
    return "".join(part if KEPT.fullmatch(part) else "".join(map(shape, part))
                   for part in KEPT.split(text))


def entries(pot):
    """(msgid, msgid_plural or None) of every text, as they are escaped in the file."""
    for block in open(pot, encoding="utf-8").read().split("\n\n")[1:]:
        fields = {}
        for line in block.splitlines():
            match = re.match(r'(?:(msg\S+) )?"(.*)"$', line)
            if match:
                field = match[1] or field
                fields[field] = fields.get(field, "") + match[2]
        if "msgid" in fields:
            yield fields["msgid"], fields.get("msgid_plural")


def make(pot, po, other_id=None, other_text=None):
    with open(po, "w", encoding="utf-8") as out:
        out.write('msgid ""\nmsgstr "Content-Type: text/plain; charset=UTF-8\\n"\n'
                  '"Plural-Forms: nplurals=2; plural=(n != 1);\\n"\n\n')
        for one, many in entries(pot):
            text = other_text if one == other_id else shaped(one)
            if many is None:
                out.write(f'msgid "{one}"\nmsgstr "{text}"\n\n')
            else:
                out.write(f'msgid "{one}"\nmsgid_plural "{many}"\nmsgstr[0] "{text}"\n'
                          f'msgstr[1] "{shaped(many)}"\n\n')


def check(path, *allowed):
    text = open(path, encoding="utf-8").read()
    if "<html" in text:
        text = re.sub(r"(?s)<(script|style|code).*?</\1>", " ", text)
        text = html.unescape(re.sub(r"<[^>]*>", " ", text))
    lines = [TYPED.sub(" ", line) for line in text.splitlines()]
    for word in sorted(filter(None, allowed), key=len, reverse=True):
        lines = [line.replace(word, " ") for line in lines]
    left = [(line, [w for w in re.findall(r"[A-Za-z]+", line) if w not in UNITS]) for line in lines]
    left = [(line, words) for line, words in left if words]
    for line, words in left:
        print(f"not translated: {', '.join(words)} | {line.strip()[:150]}")
    return not left


def same(path, other):
    def masked(value):
        if isinstance(value, dict):
            return {key: masked(v) for key, v in value.items()}
        if isinstance(value, list):
            return [masked(v) for v in value]
        return "a sentence" if isinstance(value, str) and " " in value else value
    return masked(json.load(open(path))) == masked(json.load(open(other)))


if __name__ == "__main__":
    command, arguments = sys.argv[1], sys.argv[2:]
    result = {"make": make, "check": check, "same": same}[command](*arguments)
    sys.exit(0 if result in (None, True) else 1)
