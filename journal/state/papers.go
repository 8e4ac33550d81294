package state

import (
	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/note"
	"guidecoat/journal/speech"
)

// papers are the newest of each name, in the order of the names, as long as the vehicle is not sold.
func (st *State) papers() []*journal.Paper {
	if st.Sale != nil {
		return nil // they are the buyer's matter
	}
	var list []*journal.Paper
	at := map[string]int{}
	for _, p := range st.Build.Papers {
		if !st.Counts(p.Since()) {
			continue
		}
		if i, ok := at[p.ID()]; ok {
			list[i] = p
			continue
		}
		at[p.ID()], list = len(list), append(list, p)
	}
	return list
}

func paperSnags(st *State) []*Snag {
	var list []*Snag
	for _, p := range st.papers() {
		from := p.Until.AddDays(-p.Warn)
		if st.Today < from {
			continue
		}
		s := &Snag{Snag: fact.Snag{ID: p.ID(), Source: fact.FromPaper, Open: true, Opened: max(from, p.Since())}, Span: p.At, Session: p.Session}
		s.Severity, s.Due, s.Private = note.Minor, p.Until, p.Private
		s.Tell(speech.Of("%s runs out", p.Name))
		if p.Until < st.Today {
			s.Tell(speech.Of("%s has run out", p.Name))
		}
		if words := p.Line.Words().S; words != "" && p.Line.Kind.Key == "papers" {
			s.Tell(speech.Of("%s: %s", s.Said, words))
		}
		list = append(list, s)
	}
	return list
}

// roadPapers are what stands in the way of driving by the papers.
func roadPapers(st *State, _ []Stop) []Stop {
	var list []Stop
	for _, p := range st.papers() {
		switch {
		case p.Road == nil:
		case !*p.Road:
			list = append(list, Stop{Text: p.Name + " does not allow driving", Span: p.At})
		case p.Until < st.Today:
			list = append(list, Stop{Text: p.Name + " ran out on " + p.Until.String(), Span: p.At})
		}
	}
	return list
}
