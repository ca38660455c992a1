"""Styles, fonts and settings of the template (ECMA-376 part 1)."""

from __future__ import annotations

from records.document.template.pieces import BRASS, INK

W = "http://schemas.openxmlformats.org/wordprocessingml/2006/main"
R = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n'
FONT = "Arial"


def _paragraph(
    style: str, name: str, *, size: float = 9, before: float = 0, after: float = 3,
    bold: bool = False, color: str = "", shade: str = "", keep: bool = False,
    level: int | None = None, rule: str = "", indent: float = 0, default: bool = False,
) -> str:  # fmt: skip
    spacing = f'<w:spacing w:before="{round(before * 20)}" w:after="{round(after * 20)}"/>'
    spacing += f'<w:ind w:left="{round(indent * 20)}"/>' if indent else ""
    outline = f'<w:outlineLvl w:val="{level}"/>' if level is not None else ""
    ink = f'<w:color w:val="{color}"/>' if color else ""
    ground = f'<w:shd w:val="clear" w:color="auto" w:fill="{shade}"/>' if shade else ""
    based = "" if default else '<w:basedOn w:val="Normal"/>'
    first = ' w:default="1"' if default else ""
    return (
        f'<w:style w:type="paragraph" w:styleId="{style}"{first}>'
        f'<w:name w:val="{name}"/>{based}<w:qFormat/>'
        f"<w:pPr>{'<w:keepNext/>' if keep else ''}{rule}{ground}{spacing}{outline}</w:pPr>"
        f"<w:rPr>{'<w:b/>' if bold else ''}{ink}"
        f'<w:sz w:val="{round(size * 2)}"/><w:szCs w:val="{round(size * 2)}"/></w:rPr></w:style>'
    )


_UNDER = f'<w:pBdr><w:bottom w:val="single" w:sz="12" w:space="2" w:color="{BRASS}"/></w:pBdr>'

STYLES = (
    HEAD + f'<w:styles xmlns:w="{W}"><w:docDefaults><w:rPrDefault><w:rPr>'
    f'<w:rFonts w:ascii="{FONT}" w:hAnsi="{FONT}" w:cs="{FONT}" w:eastAsia="{FONT}"/>'
    '<w:sz w:val="18"/><w:szCs w:val="18"/><w:lang w:val="en-GB"/></w:rPr></w:rPrDefault>'
    "<w:pPrDefault><w:pPr><w:widowControl/></w:pPr></w:pPrDefault></w:docDefaults>"
    + _paragraph("Normal", "Normal", default=True)
    + _paragraph("Title", "Title", size=19, bold=True, color=INK, after=2, rule=_UNDER)
    + _paragraph("Subtitle", "Subtitle", size=11, color=INK, after=8)
    + _paragraph(
        "Heading1", "heading 1", size=14, bold=True, color=INK, before=16, after=5, keep=True,
        level=0, rule=_UNDER,
    )
    + _paragraph(
        "Heading2", "heading 2", size=10.5, bold=True, color=INK, before=9, after=3, keep=True,
        level=1,
    )
    + _paragraph("Lead", "Lead", keep=True)
    + _paragraph("Boxed", "Boxed", indent=6)
    + _paragraph("BoxedStrong", "Boxed strong", indent=6, bold=True)
    + _paragraph("Cell", "Cell", size=8, before=1, after=1)
    + _paragraph("CellKept", "Cell kept with next", size=8, before=1, after=1, keep=True)
    + _paragraph("CellStrong", "Cell strong", size=8, before=1, after=1, bold=True)
    + _paragraph("CellSmall", "Cell small", size=7, before=1.5, after=1)
    + _paragraph("CellHead", "Cell heading", size=7.5, before=1.5, after=1.5, bold=True, keep=True)
    + _paragraph("CellGroup", "Cell group", size=8, before=1.5, after=1.5, bold=True, keep=True)
    + _paragraph(
        "CellAlarm", "Cell alarm", size=8, before=1, after=1, bold=True, shade="DADADA"
    )
    + _paragraph("Fine", "Fine print", size=7.5, after=2)
    + _paragraph("Tag", "Template tag", size=7, color="7A7A7A", after=0)
    + _paragraph("Gap", "Gap", size=4, after=0)
    + _paragraph("Head", "Page head", size=8, color=INK, after=0)
    + _paragraph("Foot", "Page foot", size=7, after=0)
    + '<w:style w:type="table" w:default="1" w:styleId="TableNormal">'
    '<w:name w:val="Normal Table"/><w:tblPr><w:tblInd w:w="0" w:type="dxa"/><w:tblCellMar>'
    '<w:top w:w="0" w:type="dxa"/><w:left w:w="57" w:type="dxa"/><w:bottom w:w="0" w:type="dxa"/>'
    '<w:right w:w="57" w:type="dxa"/></w:tblCellMar></w:tblPr></w:style></w:styles>'
)  # fmt: skip

SETTINGS = (
    HEAD + f'<w:settings xmlns:w="{W}"><w:zoom w:percent="100"/><w:defaultTabStop w:val="720"/>'
    '<w:compat><w:compatSetting w:name="compatibilityMode" '
    'w:uri="http://schemas.microsoft.com/office/word" w:val="15"/></w:compat></w:settings>'
)

FONTS = (
    # The alternative has the same widths, so lines break alike where Arial is not installed.
    HEAD + f'<w:fonts xmlns:w="{W}"><w:font w:name="{FONT}"><w:altName w:val="Liberation Sans"/>'
    '<w:panose1 w:val="020B0604020202020204"/><w:charset w:val="00"/><w:family w:val="swiss"/>'
    '<w:pitch w:val="variable"/></w:font></w:fonts>'
)
