package note

import (
	"bytes"
	"slices"
	"sort"
	"strings"

	"guidecoat/journal/pick"
	"guidecoat/journal/source"
)

// The vocabulary of the note language: every list of words that a line may choose from.

// Categories of costs, in the order in which they are listed everywhere.
var Categories = []string{"vehicle", "fees", "transport", "parts", "paint", "consumables", "labour", "tools", "sundries"}

var Credits = []string{"refund", "surcharge", "spares", "scrap"}

// SaleHeads are what happens to the money of a sale.
var SaleHeads = []string{"asked", "floor", "deposit", "kept", "agreed", "part exchange", "paid", "claim", "returned"}

// States of a part. The first four go forward only; the last three end a round.
var States = []string{"needed", "ordered", "arrived", "fitted", "refitted", "returned", "cancelled", "sold"}

// Results of a check that was carried out.
var Results = []string{"passed", "failed", "done"}

var Kinds = []string{"temporary", "job", "inspect", "decide", "recheck"}

// Conditions and Origins of a part.
var (
	Conditions = []string{"new", "used", "reconditioned"}
	Origins    = []string{"genuine", "pattern"}
)

// Systems of a vehicle. See [IsSafety] for those that can hurt somebody.
var Systems = []string{
	"brakes", "steering", "suspension", "wheels", "restraints", "structure", "high-voltage", "fuel",
	"lighting", "visibility", "engine", "cooling", "exhaust", "transmission", "electrical", "air-conditioning", "body", "paint", "interior",
}

// safetySystems is how many of Systems, from the first, are safety systems.
const safetySystems = 8

// IsSafety tells whether work on the system can hurt somebody when it is wrong.
func IsSafety(system string) bool { return slices.Contains(Systems[:safetySystems], system) }

// unitSystems are what control units are called for short; common practice, no source.
var unitSystems = map[string]string{"abs": "brakes", "brake": "brakes", "srs": "restraints", "airbag": "restraints", "airbags": "restraints"}

// SystemOfUnit is the system that the name of a control unit says it belongs to, or "".
func SystemOfUnit(name string) string {
	for w := range strings.SplitSeq(name, "-") {
		if system := unitSystems[w]; system != "" {
			return system
		}
	}
	if name == "" {
		return "" // as nearly always
	}
	return pick.First(Systems, func(system string) bool { return strings.Contains("-"+name+"-", "-"+system+"-") })
}

// A Severity grades a deficiency in the words of Directive 2014/45/EU, Article 7(2).
type Severity int

// Minor has no significant effect on safety; Major may prejudice it; Dangerous is a direct and immediate risk.
const (
	NoSeverity Severity = iota
	Minor
	Major
	Dangerous
)

var Severities = []string{"minor", "major", "dangerous"}

func (s Severity) String() string {
	if s < Minor || s > Dangerous {
		return ""
	}
	return Severities[s-1]
}

func SeverityOf(word string) Severity {
	return Severity(slices.Index(Severities, word) + 1) // NoSeverity where it is none
}

// IsID tells whether the word has the form of an id: lower-case words joined by hyphens.
func IsID(word string) bool {
	if word == "" {
		return false
	}
	for part := range strings.SplitSeq(word, "-") {
		if part == "" {
			return false
		}
		for i := 0; i < len(part); i++ {
			if c := part[i]; (c < 'a' || c > 'z') && (c < '0' || c > '9') {
				return false
			}
		}
	}
	return true
}

// isSnagID tells whether the word has a hyphen besides, so that an ordinary word stays one.
func isSnagID(word string) bool { return strings.Contains(word, "-") && IsID(word) }

// SuggestID turns words into the id a builder might have meant, or "".
func SuggestID(words string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(words) {
		switch {
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9':
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
		if b.Len() >= 40 {
			break
		}
	}
	return strings.Trim(b.String(), "-")
}

// A Text is a run of characters as typed, joined over its lines, that knows where each of its bytes stands.
type Text struct {
	S    string
	file *source.File
	at   int // where it begins in the file
	// pieces are those of a text over several lines, in order; the first begins at 0.
	pieces *[]piece
}

// A piece says that the bytes of a text from at on stand in the file from offset on.
type piece struct{ at, offset int }

func newText(f *source.File, start, end int) Text {
	return Text{S: string(f.Data[start:end]), file: f, at: start}
}

// joined is a text over several lines.
func joined(f *source.File, s string, pieces []piece) Text {
	if len(pieces) == 1 {
		return Text{S: s, file: f, at: pieces[0].offset}
	}
	return Text{S: s, file: f, at: pieces[0].offset, pieces: &pieces}
}

// Span returns where bytes start to end of the text stand.
func (t Text) Span(start, end int) source.Span {
	if end <= start {
		at := t.offset(start)
		return t.file.Span(at, at)
	}
	return t.file.Span(t.offset(start), t.offset(end-1)+1)
}

// Whole returns where the text stands.
func (t Text) Whole() source.Span { return t.Span(0, len(t.S)) }

// Slice returns the part of the text from start to end.
func (t Text) Slice(start, end int) Text {
	if t.pieces == nil {
		return Text{S: t.S[start:end], file: t.file, at: t.at + start}
	}
	var pieces []piece
	for i, p := range *t.pieces {
		last := i+1 == len(*t.pieces) || (*t.pieces)[i+1].at > start
		if last && p.at < max(end, start+1) {
			at := max(p.at-start, 0)
			pieces = append(pieces, piece{at, p.offset + max(start-p.at, 0)})
		}
	}
	return joined(t.file, t.S[start:end], pieces)
}

// beginsLine tells whether a byte of the text is the first of a line of the file.
func (t Text) beginsLine(at int) bool {
	before := bytes.TrimRight(t.file.Data[:t.offset(at)], " \t")
	return len(before) == 0 || before[len(before)-1] == '\n'
}

func (t Text) offset(at int) int {
	if t.pieces == nil {
		return t.at + at
	}
	pieces := *t.pieces
	i := sort.Search(len(pieces), func(i int) bool { return pieces[i].at > at }) - 1
	p := pieces[max(i, 0)]
	return p.offset + at - p.at
}

// trim moves start and end inwards over spaces and tabs.
func trim[S string | []byte](s S, start, end int) (int, int) {
	for start < end && isSpace(s[start]) {
		start++
	}
	for end > start && isSpace(s[end-1]) {
		end--
	}
	return start, end
}

func isSpace(c byte) bool { return c == ' ' || c == '\t' || c == '\r' || c == '\n' }
