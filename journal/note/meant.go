package note

import (
	"bytes"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"sync"

	"guidecoat/journal/source"
)

// What people write behind a semicolon for another clause or for none, and what a friend would answer.

// meant is one such way. In its help "; …" stands for the clause that is right.
type meant struct {
	in      string                // the keys of the lines that it is of
	written func() *regexp.Regexp // made once it is asked for: few lines need one
	clause  string                // what to write in its place; "" where help says it
	help    string
}

func means(in, written, clause, help string) meant {
	made := sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`(?i)^(?:` + written + `)$`) })
	return meant{in, made, clause, help}
}

const moneyLines = "cost credit sold tools"

var meanings = []meant{
	means(moneyLines, `(?:invoice|inv|bill|receipt|rcpt|order|ref|reference|ticket)\.?:? *(?:no|number|nr)?[.:]? *(\S*[0-9]\S*)`, "receipt $1", ""),
	means(moneyLines, `#(\S*[0-9]\S*)`, "receipt $1", ""),
	means(moneyLines, `(?:paid )?(?:in |by )?(cash|card|bank transfer|transfer|cheque)(?: in hand|, no receipt|, no invoice| paid)?`, "", "How it was paid is description: leave the semicolon out, as in \"12.00 hose, $1\"."),
	means(moneyLines, `(?:no|without(?: a)?|lost the) (?:receipt|invoice|bill)`, "", "That is description: leave the semicolon out, as in \"12.00 hose, no receipt\"."),
	means("cost credit tools", `(?:.* )?(?:yesterday|today|(?:last|this) (?:week|month|year|night|\pL+day)|(?:\pL+ )?(?:days?|weeks?|months?) ago|(?:on )?(?:mon|tues|wednes|thurs|fri|satur|sun)day)`, "", "Another day than the note's is written as \"on 2026-04-09\"."),
	means("cost credit", `(?:(?:excl?|excluding|without|no|net of|\+|plus|ex)\.? ?)(?:vat|tax)(?: *([0-9.]+ ?%))?|(?:vat|tax) (?:on top|extra|to add|not included)`, "plus vat $1", ""),
	means("cost credit", `(?:\+ ?)?(?:vat|tax)(?: *([0-9.]+ ?%))?`, "plus vat $1", "Write \"plus vat $1\" if the price is without tax."),
	means(moneyLines, `(?:incl?|including|with|inc)\.? ?(?:vat|tax)|(?:vat|tax) (?:paid|included|incl?)\.?`, "", "Leave it out: an amount is what was paid, tax and all."),
	means("cost", `(?:new |shared |a |for the )?tools?\b.*`, "as tools", ""),
	means("cost", `(?:post|postage|carriage|delivery|shipping)`, "as transport", ""),
	means("cost", `(?:a |the )?deposit\b.*`, "", "A deposit is a line of cost of its own, and the rest another when it is paid: say it in the description."),
	means("cost credit", `(?:by|paid|paid on|bought|bought on|dated) (.*[0-9].*)`, "on $1", ""),
	means("cost parts", `(?:at|via|through|seller|supplier|shop|bought (?:at|from)|ordered (?:at|from)|by):? +([\pL].*)`, "from $1", ""),
	means("cost credit", `(?:half|1/2)(?: mine| each| shared)?`, "share 1/2", ""),
	means("parts snag", `(?:by|before|until|eta|expected|here|arrives|arriving)(?: on| by)? (.*[0-9].*)`, "due $1", ""),
	means("parts", `(?:part|pt|oe|oem|p/?n)?\.? ?(?:no|nr|number)[.:]? +(\S*[0-9]\S*)`, "number $1", ""),
	means("parts", `([£€$]?[0-9][0-9,.]*)`, "", "Write \"estimate $1\" if it is not paid yet; what is paid is a line of \"cost\"."),
	means("parts", `(?:price|cost|about|approx\.?|around|~|est\.?) *([£€$]?[0-9].*)`, "estimate $1", ""),
	means("time", `(?:both(?: of us)?|(?:the )?two of us|2 of us|two people|2 people|2 men|with (?:a )?(?:helper|\pL+))`, "hands 2", ""),
	means("time", `([2-9]) (?:people|men|persons|of us|pairs of hands)|x ?([2-9])`, "hands $1$2", ""),
	means("snag", `(?:after|once|needs|blocked by|when) ([a-z0-9]+(?:-[a-z0-9]+)+)(?: is (?:here|fitted|done|in))?`, "waits for $1", ""),
	means("snag", `(?:very |quite |rather )?(?:serious|urgent|important|critical|severe|bad)(?: one)?|(?:must|has to|needs to) be .*`, "", "How bad it is, is minor, major or dangerous; when it must be done is \"due 2026-05-01\"."),
	means("checks", `(?:done |passed |carried out )?(?:by|from) (.+)`, "by $1", ""),
	means("readings", `(?:minimum|at least|no less than|not under|>=?|over) ?([0-9].*)`, "min $1", ""),
	means("readings", `(?:maximum|at most|no more than|not over|<=?|under|limit) ?([0-9].*)`, "max $1", ""),
	means("cost credit parts checks snag readings", `(?:photos?|picture|pic|image):? (\S+\.\S+)`, "photo $1", ""),
}

// meaning is the help for a clause that is written otherwise, "" where none is known.
func (k *Kind) meaning(c context, s string) string {
	for _, m := range meanings {
		if !slices.Contains(strings.Fields(m.in), k.Key) {
			continue
		}
		at := m.written().FindStringSubmatchIndex(s)
		if at == nil {
			continue
		}
		clause := strings.TrimSpace(string(m.written().ExpandString(nil, m.clause, s, at)))
		if clause != "" && !k.takes(c, clause) {
			continue
		}
		if m.help != "" {
			return strings.Replace(string(m.written().ExpandString(nil, m.help, s, at)), "vat \"", "vat\"", 1) // no rate was written
		}
		return "Write \"" + clause + "\"."
	}
	return ""
}

// takes tells whether a line of that kind can carry the clause.
func (k *Kind) takes(c context, s string) bool {
	found := findClause(k, s)
	if found == nil {
		return false
	}
	from, to := trim(s, len(found.Word), len(s))
	if found.Value == nil || from == to {
		return from == to && (found.Value == nil || found.Optional)
	}
	_, end, bad := found.Value.Read(c, s[from:to])
	return bad == nil && end == to-from
}

// ControlCharacter is the flaw of a character that is a command: people may see another line than is read.
const ControlCharacter source.Flaw = "control-character"

// otherText reports a file that is text of another sort, and tells whether it is one.
func (n *Note) otherText() bool {
	data := n.File.Data
	f := source.Fault{Flaw: NotUTF8, Word: "UTF-16", Span: n.File.Span(0, 0)}
	switch {
	case isUTF16(data):
	case bytes.IndexByte(data, '\n') < 0 && bytes.IndexByte(bytes.TrimRight(data, "\r"), '\r') >= 0:
		at := bytes.IndexByte(data, '\r')
		f = source.Fault{Flaw: ControlCharacter, Span: n.File.Span(at, at+1), Why: "every line of the file ends in a carriage return alone", Help: otherEnds}
	default:
		return false
	}
	n.OtherText, n.Unread, n.Lost, n.Faults = true, true, 1, []source.Fault{f}
	return true
}

const otherEnds = "Save the file with the line ends of Unix (LF) or Windows (CRLF)."

// isUTF16 tells whether a file is UTF-16: by its byte order mark, or by zeros for every second byte.
func isUTF16(data []byte) bool {
	if bytes.HasPrefix(data, []byte("\xFF\xFE")) || bytes.HasPrefix(data, []byte("\xFE\xFF")) {
		return true
	}
	var zeros [2]int
	begin := data[:min(len(data), 1024)]
	for i, b := range begin {
		if b == 0 {
			zeros[i%2]++
		}
	}
	few, many := min(zeros[0], zeros[1]), max(zeros[0], zeros[1])
	return many > len(begin)/4 && few < many/8+1
}

// checkControls records the first control character of every line that has one.
func checkControls(n *Note) {
	data := n.File.Data
	for at := 0; at < len(data); {
		i := controlIn(data[at:])
		if i < 0 {
			return
		}
		at += i
		f := source.Fault{Flaw: ControlCharacter, Span: n.File.Span(at, at+1), Why: fmt.Sprintf("the control character U+%04X stands here", data[at]), Help: "Delete it."}
		switch data[at] {
		case '\r':
			f.Why, f.Help = "a carriage return stands alone here, which ends the line for some programs and not for others", otherEnds
		case 0xC2:
			f.Span = n.File.Span(at, at+2)
			f.Why = fmt.Sprintf("the control character U+%04X stands here", data[at+1])
		}
		n.fault(f)
		_, at = cutLine(data, at)
	}
}

// controlIn returns where the first control character stands, or -1. Those of the second set are two bytes.
func controlIn(data []byte) int {
	for i, b := range data {
		if !mayControl[b] {
			continue
		}
		switch {
		case b == '\r' && (i+1 == len(data) || data[i+1] == '\n'):
		case b == 0xC2 && (i+1 == len(data) || data[i+1] >= 0xA0 || data[i+1] < 0x80):
		default:
			return i
		}
	}
	return -1
}

var mayControl = func() (t [256]bool) {
	for b := range byte(' ') {
		t[b] = b != '\t' && b != '\n'
	}
	t[0x7F], t[0xC2] = true, true
	return t
}()
