package check

import (
	"iter"
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"

	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
	"guidecoat/journal/view"
)

var missingSemicolon = &Check{
	Name:     "missing-semicolon",
	Severity: problem.Warning,
	Summary:  "a clause at the end of other words, where it is none",
	Explain: "Without a semicolon a clause is words like any other: the line is shown, the hours count once, the price goes to no part. " +
		"Only what can be read as a clause and makes little sense otherwise is reported.",
	Bad:  "---\nstage: body\ncost: 144.00 delivery as transport\n---\n",
	Good: "---\nstage: body\ncost: 144.00 delivery; as transport\n---\n",
	Run: func(p *Pass) {
		s := p.clauseSearch()
		for _, w := range p.notes() {
			for _, l := range w.note.Lines {
				p.missingSemicolon(s, w, l)
			}
			for _, it := range w.note.Items {
				p.missingSemicolon(s, w, it.Line)
			}
		}
	},
}

func (p *Pass) missingSemicolon(s *clauseSearch, w words, l *note.Line) {
	if p.leftOut(l) {
		return
	}
	for t := range textsOf(l) {
		p.clausesAtEnd(s, w, l, t)
	}
}

// textsOf are the words of a line and of its clauses.
func textsOf(l *note.Line) iter.Seq[note.Text] {
	return func(yield func(note.Text) bool) {
		if !yield(l.Words()) {
			return
		}
		for _, c := range l.Clauses {
			if !yield(c.Arg) {
				return
			}
		}
	}
}

func (p *Pass) clausesAtEnd(s *clauseSearch, w words, l *note.Line, t note.Text) {
	from, to, clauses := s.in(w.note, l, t)
	if len(clauses) == 0 || isSupplier(clauses) && !w.private && s.tellsOf(p, l, t.Span(from, to)) {
		return // private-words tells of a supplier, and of the semicolon too
	}
	written := "; " + strings.Join(clauses, "; ")
	p.ReportFix(t.Span(from, to), quote(t.S[from:to])+" is part of other words here, and does nothing", "Write \""+written+"\" if it is meant as a clause.",
		&source.Fix{Span: t.Span(len(strings.TrimRight(t.S[:from], " \t,")), to), Text: written})
}

// A clauseSearch looks for clauses that lack their semicolon. It knows the names
// of the build, since any words can be read as a name.
type clauseSearch struct {
	home  string          // the build's currency
	names map[string]bool // of suppliers, and of those who carried out checks
	ids   map[string]bool
	stage map[string]bool

	hidden *hidden // once tellsOf was asked
}

// tellsOf tells whether private-words tells of a supplier that stands there.
func (s *clauseSearch) tellsOf(p *Pass, l *note.Line, at source.Span) bool {
	if s.hidden == nil {
		s.hidden = hiddenFrom(p.State.Build)
	}
	found := false
	for _, part := range p.shown(view.ForPublic).Lines[l] {
		s.hidden.searchText(part.Text(), func(_ *secret, start, _ int) {
			found = found || part.Start+int32(start) >= at.Start && part.Start+int32(start) < at.End
		})
	}
	return found
}

// isSupplier tells whether the clauses are a supplier and nothing else.
func isSupplier(clauses []string) bool {
	return len(clauses) == 1 && strings.HasPrefix(clauses[0], "from ")
}

// supplier returns the clause at the end of a text of a line that lacks its semicolon
// and holds what stands at a place, if it is a supplier; else "".
func (s *clauseSearch) supplier(n *note.Note, l *note.Line, at source.Span) string {
	for t := range textsOf(l) {
		from, to, clauses := s.in(n, l, t)
		if !isSupplier(clauses) {
			continue
		}
		if there := t.Span(from, to); there.Start <= at.Start && at.Start < there.End {
			return clauses[0]
		}
	}
	return ""
}

func (p *Pass) clauseSearch() *clauseSearch {
	b := p.State.Build
	s := &clauseSearch{home: b.Card.Currency.Code, names: map[string]bool{}, ids: map[string]bool{}, stage: map[string]bool{}}
	for _, st := range b.Stages {
		s.stage[st.Name] = true
	}
	for _, session := range b.Sessions {
		for _, l := range session.Note.Lines {
			for _, word := range []string{"from", "by"} {
				if name, ok := note.Arg[string](l, word); ok {
					s.names[name] = true
				}
			}
			if l.Kind.Key == "parts" {
				s.ids[l.Name] = true
			}
		}
		for _, it := range session.Note.Items {
			s.ids[it.ID] = true
		}
	}
	return s
}

// searched is how much of the end of a text is looked at.
const searched = 200

// in returns the clauses at the end of a text of a line, as they would be written
// behind a semicolon, and where the text holds them.
func (s *clauseSearch) in(n *note.Note, l *note.Line, t note.Text) (from, to int, clauses []string) {
	if t.S == "" || len(l.Kind.Clauses) == 0 {
		return 0, 0, nil
	}
	to = len(strings.TrimRight(t.S, " .!)]"))
	if from, clauses = s.before(n, l, t, to); clauses != nil {
		return from, to, clauses
	}
	if comma := strings.LastIndexByte(t.S[:to], ','); comma > 0 { // from Tidewell, cash
		from, clauses = s.before(n, l, t, comma)
		if len(clauses) == 1 && s.names[strings.TrimPrefix(clauses[0], "from ")] {
			return from, comma, clauses
		}
	}
	return 0, 0, nil
}

// before returns the clauses that end at offset end of a text, and where they begin.
func (s *clauseSearch) before(n *note.Note, l *note.Line, t note.Text, end int) (from int, clauses []string) {
	least := max(0, end-searched)
	for at := end - 1; at >= least; at-- {
		if t.S[at] == ' ' || at > 0 && strings.IndexByte(" ,([", t.S[at-1]) < 0 {
			continue
		}
		f := n.ClauseIn(l, t, at, end)
		before := strings.TrimRight(t.S[:at], " ")
		if f == nil || !s.isMeant(l, f, before, len(clauses) > 0) {
			continue
		}
		clauses = append([]string{strings.TrimSpace(f.Word + " " + f.Arg.S)}, clauses...)
		from, end = at, len(strings.TrimRight(before, " ,–—-(["))
		at = end
	}
	return from, clauses
}

var (
	someDigit = regexp.MustCompile(`^\S*[0-9]\S*$`)
	byItself  = regexp.MustCompile(`(?i)(?:ing|it|this|that|which|each|one|everything|glue|filler|paint|primer|resin|sealant|sealer|lacquer|adhesive|putty|charger|battery|delivery|post)$`)
	// isDangerous ends words about what is dangerous.
	isDangerous = regexp.MustCompile(`(?i)(?:^|\s)(?:[a-z]*ly|looks?|seems?|feels?|gets?|becomes?|made|makes|is|are|be|was|were|not|and|or|if|but|very|too|so|as|more|less|most|quite|rather|even|still|now|than|nothing|something|anything|it|bit|a|the|that|called|marked)$`)
	someFile    = regexp.MustCompile(`(?i)^\S+\.(?:jpe?g|png|gif|webp|heic)$`)
)

// isMeant tells whether words that can be read as a clause are hardly anything else:
// words that begin a text, stand apart behind a comma, or come before another clause.
func (s *clauseSearch) isMeant(l *note.Line, f *note.Found, before string, goesOn bool) bool {
	if l.Has(f.Word) || f.Group != "" && l.Choice(f.Group) != nil {
		return false
	}
	last, _ := utf8.DecodeLastRuneInString(before)
	begins, apart := before == "", strings.ContainsRune(",–—-([", last)
	switch value := f.Arg.S; f.Word {
	case "plus vat", "private", "donor", "because": // the first are unadded-tax's and private-unclear's
		return false
	case "from", "to", "by":
		first, _ := utf8.DecodeRuneInString(value)
		return s.names[value] || (begins || goesOn) && unicode.IsUpper(first)
	case "for", "waits for":
		return s.ids[value] && strings.Contains(value, "-")
	case "stage":
		return s.stage[value]
	case "receipt":
		return someDigit.MatchString(value)
	case "number": // of a cylinder or a row is no number of a part
		return someDigit.MatchString(value) && len(value) > 3
	case "photo":
		return someFile.MatchString(value)
	case "rate":
		a, ok := l.Amount()
		return ok && a.Currency.Code != s.home
	case "due": // of money is with a surcharge
		return l.Kind.Key != "cost" || l.Has("surcharge")
	case "takes": // glue takes a day by itself
		return begins || apart || f.Value.(measure.Minutes) <= halfDay && !byItself.MatchString(before)
	case "dangerous":
		return begins || apart || !isDangerous.MatchString(before)
	}
	return f.Clause.Value != nil || begins || apart
}
