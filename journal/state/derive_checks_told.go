package state

import (
	"cmp"
	"slices"

	"guidecoat/journal/fact"
	"guidecoat/journal/note"
	"guidecoat/journal/speech"
)

// describe words what is outstanding, by the earliest work and the worst severity.
func (it *checkItem) describe(st *State, missing map[string][]string) {
	s := it.snag
	s.Severity, s.NotBefore, s.ToDrive, s.Part, s.Failed = note.NoSeverity, nil, note.NoSeverity, "", 0
	s.Takes, s.Due, s.DueAt, s.Disclose = it.aside.Takes, it.aside.Due, it.aside.DueAt, it.aside.Disclose
	s.WaitsFor = once(it.aside.WaitsFor)
	s.Standing.Private = s.Standing.Private || it.aside.Private
	if len(it.pending) > 0 {
		it.describeDue(st, missing)
	}
	if it.failed != nil {
		it.describeFailed(st)
	}
}

func (it *checkItem) describeDue(st *State, missing map[string][]string) {
	s, first := it.snag, slices.MinFunc(it.pending, func(a, b *dueWork) int {
		return cmp.Or(cmp.Compare(a.session.Date, b.session.Date), cmp.Compare(a.on, b.on), cmp.Compare(a.since().String(), b.since().String()))
	})
	s.Source, s.System, s.Stage, s.Part = fact.FromDue, "", first.stage, first.part
	for _, system := range first.systems {
		if s.System == "" || !slices.Contains(first.rule.Systems, s.System) {
			s.System = system
		}
	}
	s.Opened, s.Span, s.Session = first.session.Date, first.span, first.session
	words := notDone(it.name, first)
	if first.rule.Because != "" {
		words = speech.Of("%s: %s", words, speech.Term(first.rule.Because))
	}
	unknown := false
	for _, w := range it.pending {
		s.Severity = max(s.Severity, w.rule.Severity)
		from, until := w.between()
		if from != nil && (s.NotBefore == nil || from.Compare(*s.NotBefore) > 0) {
			s.NotBefore = from
			if it.aside.Due == 0 && it.aside.DueAt == nil {
				s.DueAt = until
			}
		}
		// What asks for a distance cannot forbid to drive it.
		if from == nil || st.driven(from) {
			s.ToDrive = max(s.ToDrive, w.rule.Severity)
		}
		unknown = unknown || from == nil && w.rule.Far != nil
		for _, system := range w.rule.Systems {
			s.WaitsFor = append(s.WaitsFor, missing[system]...)
		}
	}
	s.WaitsFor = once(s.WaitsFor)
	if unknown {
		words = speech.Of("%s; no odometer reading is noted by then, so nobody can tell the distance", words)
	}
	s.Tell(words)
}

func (it *checkItem) describeFailed(st *State) {
	s := it.snag
	s.Source, s.Failed = fact.FromCheck, it.failed.Session.Date
	s.Tell(speech.Of("%s %s", speech.Name(it.name), told(it.failed)))
	if len(it.pending) == 0 {
		s.Opened, s.Span, s.Session = it.failed.Session.Date, it.failed.Line.HeadSpan(), it.failed.Session
		s.System, s.Stage = it.failed.System, it.failed.Session.Stage
		if s.System == "" && len(it.rules) > 0 && len(it.rules[0].Systems) > 0 {
			s.System = it.rules[0].Systems[0] // more than the stage tells of it
		}
	}
	worst := cmp.Or(it.failed.Severity, st.Build.WorstOf(it.name))
	s.Severity, s.ToDrive = max(s.Severity, worst), max(s.ToDrive, worst)
}
