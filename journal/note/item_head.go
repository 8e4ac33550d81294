package note

import (
	"slices"
	"strings"

	"guidecoat/journal/near"
	"guidecoat/journal/pick"
	"guidecoat/journal/source"
)

// readItemHead reads a kind or `again`, an id and a severity: before a colon in any order, without one as the words begin.
func (n *Note) readItemHead(it *Item) {
	head := it.part(it.head)
	at, end := int(it.head.start), int(it.head.end)
	colon := strings.IndexByte(head.S, ':')
	if it.Colon = colon >= 0; it.Colon {
		colon += at
	} else {
		colon = end
	}
	it.lead = reachOf(trim(it.Text.S, at, colon))
	marks := slices.DeleteFunc(wordsOf(it.Lead()), func(w word) bool { return strings.Trim(w.S, "/|+&,-–—") == "" }) // job / minor / seat-runner
	if readMarked(n, it, marks) {
		at = min(colon+1, end)
		if it.Kind != "" && it.ID == "" { // `temporary: exhaust-hanger: words`
			if id, _, two := strings.Cut(it.Text.S[at:end], ":"); two && isSnagID(strings.TrimSpace(id)) {
				start, stop := trim(it.Text.S, at, at+len(id))
				it.ID, it.IDSpan, at = it.Text.S[start:stop], it.Text.Span(start, stop), at+len(id)+1
			}
		}
	} else {
		at += readBegun(n, it, wordsOf(head))
	}
	it.words = reachOf(trim(it.Text.S, at, end))
	severityInWords(it)
}

type word struct {
	Text
	at int
}

func (w word) end() int { return w.at + len(w.S) }

func wordsOf(t Text) []word {
	var list []word
	end := 0
	for w := range strings.FieldsSeq(t.S) {
		at := end + strings.Index(t.S[end:], w)
		end = at + len(w)
		list = append(list, word{t.Slice(at, end), at})
	}
	return list
}

// mostMarks is a kind, an id and a severity.
const mostMarks = 3

// readMarked takes in words of which each says something of the item; false where one is an ordinary word.
func readMarked(n *Note, it *Item, words []word) bool {
	if len(words) > mostMarks {
		return false
	}
	var kind, severity, id, other *word
	for i := range words {
		w := &words[i]
		latin, _ := near.Latin(strings.ToLower(w.S))
		slot := &other
		switch {
		case kindOf(w.S) != "":
			slot = &kind
		case severityIn(w.S) != "" || SeverityOf(strings.ToLower(strings.Trim(w.S, ","))) != NoSeverity:
			slot = &severity
		case isSnagID(latin), isSnagID(strings.ReplaceAll(latin, "_", "-")):
			slot = &id
		}
		if *slot != nil {
			return false
		}
		*slot = w
	}
	like := ""
	if other != nil {
		if kind != nil || !it.Colon {
			return false
		}
		if like = nearKind(strings.ToLower(other.S), id != nil); like == "" {
			return false
		}
		kind = other
	}
	switch {
	case id == nil && (!it.Colon || kind == nil && severity == nil || kind != nil && kindOf(kind.S) == again),
		id != nil && kind == nil && !IsID(id.S) && (!it.Colon || !IsID(strings.ReplaceAll(id.S, "_", "-"))):
		return false
	}
	if like != "" {
		n.lineFault(it.Line, source.Fault{Flaw: NearKind, Span: other.Whole(), Word: other.S, Near: []string{like}})
	} else if kind != nil {
		like = kindOf(kind.S)
	}
	if it.Again = like == again; !it.Again {
		it.Kind = like
	}
	if severity != nil {
		it.grade(*severity)
	}
	if id != nil {
		it.ID, _ = near.Latin(strings.ReplaceAll(strings.ToLower(id.S), "_", "-"))
		it.IDSpan, it.BareID = id.Whole(), kind == nil && !it.Colon
		if it.ID != id.S {
			badItemID(n, it, id.S)
		}
	}
	return true
}

// readBegun takes in a kind and a severity in parentheses that begin plain words, and returns where they end.
func readBegun(n *Note, it *Item, words []word) (at int) {
	for i, w := range words {
		kind := kindOf(w.S)
		switch {
		case severityIn(w.S) != "" && it.Choice("severity") == nil:
			it.grade(w)
		case kind != "" && kind != again && it.Kind == "" && !ofTemperature(words[i:]):
			it.Kind = kind
		case i > 0 && strings.Trim(w.S, "-–—:") == "": // temporary - tied shut
		case i == 0 && w.S == strings.ToUpper(w.S) && SeverityOf(strings.ToLower(w.S)) != NoSeverity: // MAJOR leak
			it.grade(w)
		default:
			like := near.Nearest(strings.ToLower(w.S), []string{temporary})
			if isMakeshift(w.S) {
				like = temporary
			}
			if i == 0 && like != "" {
				n.lineFault(it.Line, source.Fault{Flaw: NearKind, Span: w.Whole(), Word: w.S, Near: []string{like}, Help: "Write \"temporary\" if it must not stay, or begin with another word."})
			}
			return at
		}
		at = w.end()
	}
	return at
}

// severityInWords takes in a severity that stands in parentheses of its own further on.
func severityInWords(it *Item) {
	words := it.Words()
	if it.Choice("severity") != nil || !strings.Contains(words.S, "(") {
		return
	}
	list := wordsOf(words)
	for i, w := range list {
		if severityIn(w.S) == "" {
			continue
		}
		it.grade(w)
		if i+1 == len(list) {
			it.words = reachOf(trim(it.Text.S, int(it.words.start), int(it.words.start)+w.at))
		}
		return
	}
}

// grade takes in a word of severity as if it were a clause.
func (it *Item) grade(w word) {
	severity := strings.ToLower(strings.Trim(w.S, "(),"))
	it.Clauses = append(it.Clauses, Found{Clause: findClause(Snag, severity), Span: w.Whole()})
}

// severityIn returns the severity that a word is in parentheses, "" for none.
func severityIn(w string) string {
	inside, ok := strings.CutPrefix(strings.ToLower(w), "(")
	if inside, ends := strings.CutSuffix(inside, ")"); ok && ends && SeverityOf(inside) != NoSeverity {
		return inside
	}
	return ""
}

const (
	again     = "again"
	temporary = "temporary"
	marksOf   = "*_~`\"'()" // emphasis, code, quotes and parentheses
)

var shortKinds = map[string]string{"temp": temporary, "tmp": temporary}

// makeshift are other words for a temporary fix, which ask what is meant.
var makeshift = []string{"temporarily", "provisional", "provisionally", "makeshift", "stopgap", "bodge", "bodged"}

func isMakeshift(w string) bool {
	return slices.Contains(makeshift, strings.ToLower(strings.TrimRight(w, ":,")))
}

// SaysTemporary returns the first of some words if it is one for a temporary fix.
func SaysTemporary(t Text) Text {
	words := wordsOf(t)
	if len(words) > 0 && (kindOf(words[0].S) == temporary && !ofTemperature(words) || isMakeshift(words[0].S)) {
		return words[0].Text
	}
	return Text{}
}

// kindOf returns the kind, or `again`, that a word says, "" for none.
func kindOf(w string) string {
	w = strings.ToLower(w)
	if bare := strings.Trim(w, marksOf); balanced(w, bare) {
		w = bare
	}
	w = strings.TrimRight(w, ".,")
	if short := shortKinds[w]; short != "" {
		return short
	}
	return pick.Either(w == again || slices.Contains(Kinds, w), w, "")
}

// balanced tells whether as many marks stand before a word as behind it.
func balanced(w, bare string) bool { return bare != "" && strings.Index(w, bare)*2 == len(w)-len(bare) }

// temperature is what the word behind `temp` is where that is no temporary fix.
var temperature = []string{"gauge", "sensor", "sender", "switch", "light", "reading"}

func ofTemperature(words []word) bool {
	return kindOf(words[0].S) == temporary && !strings.HasPrefix(strings.ToLower(words[0].S), temporary) && len(words) > 1 &&
		slices.Contains(temperature, strings.Trim(strings.ToLower(words[1].S), ".,:"))
}
