package markdown

import (
	"strings"

	"guidecoat/journal/fact"
	"guidecoat/journal/note"
	"guidecoat/render/tongue"
)

// scanOf returns the control unit that a fenced block of that info string is a
// fault scan of; "" where it is none.
func scanOf(info string) string {
	words := strings.Fields(info)
	if len(words) != 2 || words[0] != "scan" || !note.IsID(words[1]) {
		return ""
	}
	return words[1]
}

// putScan writes a fault scan: a line of words where it lists nothing, otherwise a
// table of its codes.
func putScan(p *page, unit, code string) {
	var lines []string
	for line := range strings.Lines(code) {
		if line = strings.TrimSpace(line); line != "" {
			lines = append(lines, line)
		}
	}
	if len(lines) == 0 || len(lines) == 1 && strings.EqualFold(lines[0], "no faults") {
		p.tag("p", "scan")
		p.text(p.l.Tongue.Say("%s: no faults", tongue.Title(p.l.Tongue.Name(unit))))
		p.put("</p>\n")
		return
	}
	name := p.l.Tongue.Say("%s: fault codes", tongue.Title(p.l.Tongue.Name(unit)))
	p.openScroll(name, "")
	p.put(`<table class="scan">`, "\n<caption>")
	p.text(name)
	p.put("</caption>\n", `<thead><tr><th scope="col">`)
	p.text(p.l.Tongue.Say("Code"))
	p.put(`</th><th scope="col">`)
	p.text(p.l.Tongue.Say("What the unit says"))
	p.put("</th></tr></thead>\n<tbody>\n")
	for _, line := range lines {
		p.code(unit, line)
	}
	p.put("</tbody>\n</table>\n</div>\n")
}

// code writes one line of a scan. One that does not begin with a code is shown as
// it stands.
func (p *page) code(unit, line string) {
	first, words := line, ""
	if i := strings.IndexAny(line, " \t"); i >= 0 {
		first, words = line[:i], strings.TrimSpace(line[i:])
	}
	code := strings.TrimRight(first, ",:;")
	if !note.IsCode(code) {
		p.put(`<tr><td colspan="2">`)
		p.text(line)
		p.put("</td></tr>\n")
		return
	}
	p.put(`<tr><th scope="row">`)
	p.entry("code", fact.ScanID(unit, code), code)
	p.put("</th><td>")
	p.text(words)
	p.put("</td></tr>\n")
}
