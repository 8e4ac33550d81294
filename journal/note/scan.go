package note

import (
	"cmp"
	"regexp"
	"slices"
	"strings"
	"unicode"

	"guidecoat/journal/near"
	"guidecoat/journal/source"

	"github.com/yuin/goldmark/ast"
)

const (
	BadScan source.Flaw = "bad-scan"
	BadCode source.Flaw = "bad-code"
	// NearScan is a block that was meant as a scan, of which the codes would be words.
	NearScan source.Flaw = "near-scan"
	// StrayCodes is a block of fault codes that does not say what it is.
	StrayCodes source.Flaw = "stray-codes"
)

// A Scan is a fenced block with the info string `scan NAME`: what one control unit said.
type Scan struct {
	Name     string
	Span     source.Span // the info string
	NoFaults bool
	Codes    []Code
	Lines    []Text // every line, understood or not
}

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

func readScan(n *Note, node *ast.FencedCodeBlock) {
	if node.Info == nil {
		reportStrayCodes(n, node)
		return
	}
	info := newText(n.File, node.Info.Segment.Start, node.Info.Segment.Stop)
	word := wordEnd(info.S)
	if info.S[:word] != "scan" {
		reportNearScan(n, node, info)
		return
	}
	start, end := trim(info.S, word, len(info.S))
	s := &Scan{Name: info.S[start:end], Span: info.Whole()}
	switch {
	case start == end:
		n.lose(source.Fault{Flaw: BadScan, Span: s.Span, Word: "scan", Why: "it does not say which control unit was read",
			Help: "Write its name behind the word, such as \"scan engine\"."})
		return
	case !IsID(s.Name):
		n.lose(source.Fault{Flaw: BadScan, Span: info.Span(start, end), Word: s.Name, Why: "the name of a control unit is lower-case words joined by hyphens",
			Help: "Write \"scan " + SuggestID(s.Name) + "\".", Fix: instead(info.Span(start, end), SuggestID(s.Name))})
		return
	}
	lines := node.Lines()
	for i := range lines.Len() {
		seg := lines.At(i)
		if start, end := trim(n.File.Data, seg.Start, seg.Stop); start < end {
			readScanLine(n, s, newText(n.File, start, end))
		}
	}
	if len(s.Lines) == 0 {
		n.lose(source.Fault{Flaw: BadScan, Span: s.Span, Word: s.Name, Why: "it lists nothing",
			Help: "Write a line per code, or \"no faults\"."})
		return
	}
	n.Scans = append(n.Scans, s)
}

// reportNearScan reports a block of scan lines whose info string has the word scan misplaced or misspelt.
func reportNearScan(n *Note, node *ast.FencedCodeBlock, info Text) {
	var unit []string
	meant := false
	for word := range strings.FieldsFuncSeq(strings.ToLower(info.S), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }) {
		switch {
		case strings.TrimSuffix(word, "s") == "scan" || near.Distance(word, "scan", 1) == 1:
			meant = true
		case !slices.Contains([]string{"fault", "faults", "code", "codes"}, word):
			unit = append(unit, word)
		}
	}
	if codes, _ := codesIn(n, node); !meant || codes == 0 {
		return
	}
	name := cmp.Or(SuggestID(strings.Join(unit, "-")), "engine")
	n.lose(source.Fault{Flaw: NearScan, Span: info.Whole(), Word: info.S, Near: []string{name}, Fix: instead(info.Whole(), "scan "+name)})
}

// reportStrayCodes reports a block of nothing but fault codes, each with its words.
func reportStrayCodes(n *Note, node *ast.FencedCodeBlock) {
	if codes, others := codesIn(n, node); codes > 0 && others == 0 {
		seg := node.Lines().At(0)
		start, end := trim(n.File.Data, seg.Start, seg.Stop)
		n.fault(source.Fault{Flaw: StrayCodes, Span: n.File.Span(start, end)})
	}
}

// codesIn counts the lines of a block that are those of a scan, and the others.
func codesIn(n *Note, node *ast.FencedCodeBlock) (codes, others int) {
	for i := range node.Lines().Len() {
		seg := node.Lines().At(i)
		start, end := trim(n.File.Data, seg.Start, seg.Stop)
		line := string(n.File.Data[start:end])
		word := strings.TrimRight(line[:wordEnd(line)], ",:;")
		switch {
		case line == "":
		case strings.EqualFold(line, "no faults") || IsCode(strings.ToUpper(word)):
			codes++
		default:
			others++
		}
	}
	return codes, others
}

func readScanLine(n *Note, s *Scan, t Text) {
	s.Lines = append(s.Lines, t)
	if strings.EqualFold(t.S, "no faults") {
		if s.NoFaults = true; len(s.Codes) > 0 {
			scanFault(n, t, "no faults cannot stand with codes", "Leave one of the two out.")
		}
		return
	}
	word := strings.TrimRight(t.S[:wordEnd(t.S)], ",:;")
	switch {
	case s.NoFaults:
		scanFault(n, t, "no faults cannot stand with codes", "Leave one of the two out.")
	case IsCode(word):
		start, end := trim(t.S, wordEnd(t.S), len(t.S))
		s.Codes = append(s.Codes, Code{Code: word, Span: t.Span(0, len(word)), Words: t.S[start:end]})
	case IsCode(strings.ToUpper(word)):
		scanFault(n, t.Slice(0, len(word)), "fault codes are written in capitals", "Write "+strings.ToUpper(word)+".")
		n.Faults[len(n.Faults)-1].Fix = instead(t.Span(0, len(word)), strings.ToUpper(word))
	default:
		scanFault(n, t.Slice(0, len(word)), "it is not the structure of a fault code",
			"A line begins with a letter B, C, P or U, a digit 0 to 3 and three hexadecimal digits, such as C0035, or reads \"no faults\".")
	}
}

func scanFault(n *Note, t Text, why, help string) {
	n.lose(source.Fault{Flaw: BadCode, Span: t.Whole(), Word: t.S, Why: why, Help: help})
}

// The structure of a fault code by SAE J2012 / ISO 15031-6. What a code means is in lists that are not guessed here.

// Decode says the structure in words: "chassis, generic"; the system alone where sources differ; "" for no code.
func Decode(code string) string {
	if !IsCode(code) {
		return ""
	}
	return codeSystem[code[0]] + codeOwner(code)
}

var codeSystem = map[byte]string{'P': "powertrain", 'C': "chassis", 'B': "body", 'U': "network"}

const (
	generic   = ", generic"
	makersOwn = ", maker's own"
)

// codeOwner reads the first digit. From memory: of C, B and U the makers have 1 and 2,
// of P3 the first part, to P33, and the standard has P34 to P39.
func codeOwner(code string) string {
	letter, digit, next := code[0], code[1], code[2]
	switch {
	case digit == '0', letter == 'P' && digit == '2':
		return generic
	case letter == 'P' && digit == '3' && next <= '3', digit == '1', digit == '2':
		return makersOwn
	case letter == 'P' && next <= '9':
		return generic
	}
	return ""
}
