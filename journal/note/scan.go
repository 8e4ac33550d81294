package note

import (
	"regexp"
	"strings"

	"guidecoat/journal/source"

	"github.com/yuin/goldmark/ast"
)

// The flaws of fault scans.
const (
	BadScan source.Flaw = "bad-scan"
	BadCode source.Flaw = "bad-code"
)

// A Scan is a fenced block with the info string `scan NAME`: what one control unit said.
type Scan struct {
	Name     string
	Span     source.Span // the info string
	NoFaults bool
	Codes    []Code
	Lines    []Text // every line, understood or not
}

// A Code is one line of a scan.
type Code struct {
	Code  string
	Span  source.Span
	Words string
}

// codeForm is the structure of a fault code by SAE J2012 / ISO 15031-6, with the
// optional failure type of ISO 15031-6 behind a hyphen.
var codeForm = regexp.MustCompile(`^[BCPU][0-3][0-9A-F]{3}(-[0-9A-F]{2})?$`)

// IsCode tells whether the word has the structure of a fault code.
func IsCode(word string) bool { return codeForm.MatchString(word) }

func (n *Note) readScan(node *ast.FencedCodeBlock) {
	if node.Info == nil {
		return
	}
	info := newText(n.File, node.Info.Segment.Start, node.Info.Segment.Stop)
	word := wordEnd(info.S)
	if info.S[:word] != "scan" {
		return
	}
	start, end := trim(info.S, word, len(info.S))
	s := &Scan{Name: info.S[start:end], Span: info.Whole()}
	switch {
	case start == end:
		n.fault(source.Fault{Flaw: BadScan, Span: s.Span, Word: "scan", Why: "it does not say which control unit was read",
			Help: "Write its name behind the word, such as \"scan engine\"."})
		n.Lost++
		return
	case !IsID(s.Name):
		n.fault(source.Fault{Flaw: BadScan, Span: info.Span(start, end), Word: s.Name, Why: "the name of a control unit is lower-case words joined by hyphens",
			Help: "Write \"scan " + SuggestID(s.Name) + "\"."})
		n.Lost++
		return
	}
	lines := node.Lines()
	for i := range lines.Len() {
		seg := lines.At(i)
		if start, end := trim(n.File.Data, seg.Start, seg.Stop); start < end {
			n.scanLine(s, newText(n.File, start, end))
		}
	}
	if len(s.Lines) == 0 {
		n.fault(source.Fault{Flaw: BadScan, Span: s.Span, Word: s.Name, Why: "it lists nothing",
			Help: "Write a line per code, or \"no faults\"."})
		n.Lost++
		return
	}
	n.Scans = append(n.Scans, s)
}

func (n *Note) scanLine(s *Scan, t Text) {
	s.Lines = append(s.Lines, t)
	if strings.EqualFold(t.S, "no faults") {
		if s.NoFaults = true; len(s.Codes) > 0 {
			n.scanFault(t, "no faults cannot stand with codes", "Leave one of the two out.")
		}
		return
	}
	word := strings.TrimRight(t.S[:wordEnd(t.S)], ",:;")
	switch {
	case s.NoFaults:
		n.scanFault(t, "no faults cannot stand with codes", "Leave one of the two out.")
	case IsCode(word):
		start, end := trim(t.S, wordEnd(t.S), len(t.S))
		s.Codes = append(s.Codes, Code{Code: word, Span: t.Span(0, len(word)), Words: t.S[start:end]})
	case IsCode(strings.ToUpper(word)):
		n.scanFault(t.Slice(0, len(word)), "fault codes are written in capitals", "Write "+strings.ToUpper(word)+".")
	default:
		n.scanFault(t.Slice(0, len(word)), "it is not the structure of a fault code",
			"A line begins with a letter B, C, P or U, a digit 0 to 3 and three hexadecimal digits, such as C0035, or reads \"no faults\".")
	}
}

func (n *Note) scanFault(t Text, why, help string) {
	n.fault(source.Fault{Flaw: BadCode, Span: t.Whole(), Word: t.S, Why: why, Help: help})
	n.Lost++
}
