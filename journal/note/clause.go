package note

import (
	"slices"
	"strings"

	"guidecoat/journal/near"
	"guidecoat/journal/pick"
	"guidecoat/journal/source"
)

type Found struct {
	*Clause
	Span  source.Span // keyword and value
	Arg   Text        // what follows the keyword
	Value any         // nil where nothing follows
}

// ClauseIn returns what part of a text would be read as behind a semicolon, or nil where it is no clause.
func (n *Note) ClauseIn(l *Line, t Text, start, end int) *Found {
	s := t.S[start:end]
	c := findClause(l.Kind, strings.ToLower(s[:min(len(s), longestClause)]))
	if c == nil {
		return nil
	}
	from, to := trim(s, len(c.Word), len(s))
	f := Found{Clause: c, Span: t.Span(start, end), Arg: t.Slice(start+from, start+to)}
	switch {
	case c.Value == nil && from < to, c.Value != nil && from == to && !c.Optional:
		return nil
	case c.Value != nil && from < to:
		v, stop, bad := c.Value.Read(context{home: n.home, head: l.Head, day: n.day}, f.Arg.S)
		if bad != nil || stop < len(f.Arg.S) {
			return nil
		}
		f.Value = v
	}
	return &f
}

// longestClause is more than the letters of any keyword.
const longestClause = 20

// Begun returns the clause of the kind whose word begins s, or nil.
func (k *Kind) Begun(s string) *Clause { return findClause(k, s) }

func findClause(k *Kind, s string) *Clause {
	var best *Clause
	for i := range k.Clauses {
		c := &k.Clauses[i]
		if s != "" && s[0] == c.Word[0] && strings.HasPrefix(s, c.Word) && (len(s) == len(c.Word) || isSpace(s[len(c.Word)]) || isMark(c.Word)) &&
			(best == nil || len(c.Word) > len(best.Word)) {
			best = c
		}
	}
	return best
}

// isMark tells whether a keyword is a mark, behind which no space is needed.
func isMark(word string) bool { return word == "±" || word == "+-" }

func (n *Note) readClause(l *Line, c context, t Text) {
	found := findClause(l.Kind, t.S)
	if found == nil {
		n.unknownClause(l, c, t)
		return
	}
	start, end := trim(t.S, len(found.Word), len(t.S))
	f := Found{Clause: found, Span: t.Whole(), Arg: t.Slice(start, end)}
	for i := 0; i < len(l.Clauses) && !f.Repeat; i++ {
		o := &l.Clauses[i]
		if o.Word == f.Word || o.Group != "" && o.Group == f.Group {
			n.lineFault(l, source.Fault{Flaw: RepeatedClause, Span: t.Span(0, len(found.Word)), Word: f.Word, Near: []string{o.Word}, Other: o.Span})
			return
		}
	}
	switch {
	case f.Clause.Value == nil && f.Arg.S != "":
		help := n.moreHelp(l, f.Arg, 0)
		if help == "" {
			help = "Write a comma before \"" + f.Word + "\" if this is description."
			if f.Word == clausePrivate.Word { // a comma would show it
				help = "Leave it out: the clause hides the line alone."
			}
		}
		n.lineFault(l, source.Fault{Flaw: ClauseValue, Span: f.Arg.Whole(), Word: f.Word, Why: "nothing may follow it", Help: help, Fix: n.semicolon(l, t, start)})
	case f.Clause.Value != nil && f.Arg.S == "" && !f.Optional:
		n.lineFault(l, source.Fault{Flaw: ClauseValue, Span: t.Whole(), Word: f.Word, Why: "what should follow it is missing",
			Help: "Write \"" + f.Word + " " + f.Clause.Value.Name + "\"."})
	case f.Clause.Value != nil && f.Arg.S != "":
		v, stop, bad := f.Clause.Value.Read(c, f.Arg.S)
		if w, end := beforeMore(l.Kind, c, f.Clause.Value, f.Arg); bad != nil && end > 0 {
			v, stop, bad = w, end, nil
		}
		if bad != nil {
			n.valueFault(l, f.Clause.Value, f.Arg, bad)
			v = nil
		} else {
			n.extraWords(l, f.Arg, stop)
		}
		f.Value = v
	}
	l.Clauses = append(l.Clauses, f)
}

// beforeMore reads a value that only a semicolon or a new line parts from what follows, and returns its end, or 0.
func beforeMore(k *Kind, c context, v *Value, t Text) (any, int) {
	for at := 1; at < min(len(t.S), longestValue); at++ {
		if !isSpace(t.S[at-1]) || findClause(k, t.S[at:]) == nil && !t.beginsLine(at) {
			continue
		}
		end := len(strings.TrimRight(t.S[:at], " \t,"))
		if w, stop, bad := v.Read(c, t.S[:end]); bad == nil && stop == end {
			return w, end
		}
	}
	return nil, 0
}

const longestValue = 100

// extraWords reports what stands behind a value that ends there.
func (n *Note) extraWords(l *Line, t Text, from int) {
	from += len(t.S[from:]) - len(strings.TrimLeft(t.S[from:], " \t,"))
	if _, end := trim(t.S, from, len(t.S)); from < end {
		n.lineFault(l, source.Fault{Flaw: ExtraWords, Span: t.Span(from, end), Word: t.S[from:end], Help: n.moreHelp(l, t, from), Fix: n.semicolon(l, t, from)})
	}
}

// moreHelp says how words may follow a clause that has none, "" where any may be meant.
func (n *Note) moreHelp(l *Line, t Text, at int) string {
	if t.beginsLine(at) {
		return "Leave an empty line above it if it is no part of the item."
	}
	if c := findClause(l.Kind, t.S[at:]); c != nil {
		return "Write a semicolon before \"" + c.Word + "\"."
	}
	if !l.Kind.Words {
		return "Leave it out; your own words go below the second \"---\"."
	}
	return ""
}

// semicolon is the fix that parts a clause from what stands before it, nil where none begins there.
func (n *Note) semicolon(l *Line, t Text, at int) *source.Fix {
	if t.beginsLine(at) || findClause(l.Kind, t.S[at:]) == nil {
		return nil
	}
	return &source.Fix{Span: t.Span(len(strings.TrimRight(t.S[:at], " \t,")), at), Text: "; "}
}

func firstWord(s string) (end, next int) {
	end = wordEnd(s)
	next, _ = trim(s, end, len(s))
	return end, next
}

// beginsClause tells whether a line without a typed head begins with a clause, or with what is too near to one.
func beginsClause(k *Kind, s string) bool {
	if findClause(k, s) != nil {
		return true
	}
	word := s[:wordEnd(s)]
	like := near.Nearest(word, k.keywords())
	if c := findClause(k, like); c != nil && c.Value != nil && c.Value.Flaw == BadID && strings.ContainsRune(strings.TrimSpace(s[len(word):]), ' ') {
		return false // what names one thing has no words behind it: `fire at the battery side` is no `fired`
	}
	return like != "" && (strings.EqualFold(like[:1], word[:1]) || near.Distance(word, like, 1) <= 1)
}

func (k *Kind) keywords() []string {
	words := make([]string, len(k.Clauses))
	for i := range k.Clauses {
		words[i] = k.Clauses[i].Word
	}
	return words
}

func (n *Note) unknownClause(l *Line, c context, t Text) {
	words := l.Kind.keywords()
	pairs := pick.Where(words, func(w string) bool { return strings.Contains(w, " ") })
	end, help := wordEnd(t.S), l.Kind.withKeyword(c, t.S)
	var fix *source.Fix
	if word, _, colon := strings.Cut(t.S, ":"); colon && slices.Contains(words, word) {
		fix = &source.Fix{Span: t.Span(len(word), len(word)+1)}
	}
	if strings.HasPrefix(help, "Write \"") && !strings.Contains(t.S, ":") {
		end = len(t.S)
	}
	if meaning := l.Kind.meaning(c, t.S); meaning != "" {
		end, help = len(t.S), meaning
	}
	if plain := strings.ReplaceAll(t.S, "\u00a0", " "); plain != t.S && findClause(l.Kind, plain) != nil {
		help, fix = "Write a plain space instead of the one that does not break, U+00A0.", &source.Fix{Span: t.Whole(), Text: plain}
	}
	if second := end + 1; second < len(t.S) { // `plus vatt`, `wait for` are near as two words
		two := second + wordEnd(t.S[second:])
		if near.Nearest(t.S[:two], pairs) != "" {
			end = two
		}
	}
	if fits := l.Kind.meantBy(c, t.S[:end], t.S[end:]); len(fits) > 0 && help == "" && fix == nil {
		if help = "Write \"" + strings.Join(fits, "\" or \"") + "\", or a comma if this is description."; len(fits) == 1 {
			help = "Nearest: \"" + fits[0] + "\". Write a comma if this is description."
		}
	}
	f := source.Fault{Flaw: UnknownClause, Span: t.Span(0, end), Word: t.S[:end], Near: words, Help: help, Fix: fix, Why: t.S}
	if len(l.Clauses) > 0 {
		f.Other = l.Clauses[0].Span // description stands before it
	}
	n.lineFault(l, f)
}

// meantBy are the keywords that a word may be meant for, where it is near to several: those that take what follows it.
// One as long as the word is, since swapped letters are the commonest slip; `fr` may be for or from.
func (k *Kind) meantBy(c context, word, rest string) []string {
	like := pick.Where(k.keywords(), func(w string) bool {
		begun := len(word) > 1 && strings.HasPrefix(w, strings.ToLower(word)) && !strings.Contains(w, " ")
		return begun || near.Nearest(word, []string{w}) != ""
	})
	if len(like) < 2 {
		return nil
	}
	fits := pick.Where(like, func(w string) bool { return k.takes(c, w+rest) })
	if alike := pick.Where(fits, func(w string) bool { return len(w) == len(word) }); len(alike) == 1 {
		return alike
	}
	return fits
}

// withKeyword is help for a clause whose keyword is missing, or has a colon behind it.
func (k *Kind) withKeyword(c context, s string) string {
	if word, _, colon := strings.Cut(s, ":"); colon && slices.Contains(k.keywords(), word) {
		return "Write \"" + word + "\" without the colon."
	}
	var fits []string
	for _, clause := range k.Clauses {
		if v := clause.Value; v != nil && v.Flaw != "" && v.Flaw != BadID && len(s) < longestValue && len(fits) < 2 && !(k.Key == "cost" && clause.Word == "due") {
			if _, end, bad := v.Read(c, s); bad == nil && end == len(s) {
				fits = append(fits, "\""+clause.Word+" "+s+"\"")
			}
		}
	}
	if fits == nil {
		return ""
	}
	return "Write " + strings.Join(fits, " or ") + "."
}
