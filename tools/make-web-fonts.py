"""Makes the web fonts in `fonts/` from the TrueType files beside them. Run it only when those change:

    apt-get install fonttools python3-brotli && python3 tools/make-web-fonts.py

The `-latin` files hold Latin letters, figures and the signs of the trade, so that the page loads at once; by the licence of the font a part of it
may not bear its name, so inside they are called "Wireworthy Sans". The other two are the whole fonts, packed and not changed, for plans in
other scripts. The same fonts and the same version of fontTools give the same bytes.
"""

from pathlib import Path

from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont

FOLDER = Path(__file__).parent.parent / "fonts"
# Latin with what European languages add; Greek, signs and arrows as electrical texts use them. The page is told the same ranges.
RANGES = [tuple(int(end, 16) for end in part.split("U+")[1].split("-")) for part in (FOLDER / "latin.txt").read_text().split(",")]


def open_font(weight):
    return TTFont(FOLDER / f"IBMPlexSans-{weight}.ttf", recalcTimestamp=False)


for weight in ("Regular", "SemiBold"):
    whole = open_font(weight)
    whole.flavor = "woff2"
    whole.save(FOLDER / f"IBMPlexSans-{weight}.woff2")

    part = open_font(weight)
    options = Options()
    options.hinting = False
    options.layout_features = ["mark", "mkmk", "ccmp", "locl"]
    options.name_IDs = [0, 1, 2, 3, 4, 5, 6, 13, 14]
    subsetter = Subsetter(options)
    subsetter.populate(unicodes=[code for ends in RANGES for code in range(ends[0], ends[-1] + 1)])
    subsetter.subset(part)
    for record in part["name"].names:
        if record.nameID in (1, 3, 4, 6, 16):
            text = record.toUnicode().replace("IBM Plex Sans", "Wireworthy Sans").replace("IBMPlexSans", "WireworthySans")
            part["name"].setName(text, record.nameID, record.platformID, record.platEncID, record.langID)
    part.flavor = "woff2"
    part.save(FOLDER / f"WireworthySans-{weight}-latin.woff2")
