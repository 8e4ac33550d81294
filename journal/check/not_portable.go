package check

import (
	"guidecoat/journal/note"
	"guidecoat/journal/parallel"
	"guidecoat/journal/pick"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
	"slices"
)

var notPortable = &Check{
	Name: "not-portable", Severity: problem.Information,
	Summary: "front matter that other programs would read differently",
	Explain: "guidecoat reads every line as you typed it, so nothing is wrong. " +
		"Other programs that read your notes take front matter as YAML, and would stop here or read something else; quotes around the value mostly settle it.",
	Example: "---\nwrong|title: Beam out: a long day\nright|title: \"Beam out: a long day\"\nstage: rear axle\n---\n",
	Run: func(p *Pass) {
		notes := pick.Map(p.notes, func(w words) *note.Note { return w.note })
		reportNotPortable(p, notes, p.State.Build.Faults)
	},
}

// reportNotPortable compares both readings of notes that have those faults.
func reportNotPortable(p *Pass, notes []*note.Note, faults []source.Fault) {
	broken := map[*source.File]bool{}
	for _, f := range faults {
		broken[f.Span.File] = broken[f.Span.File] || slices.Contains(brokenFront, f.Flaw)
	}
	differ := make([]*note.Difference, len(notes))
	parallel.Each(len(notes), func(i int) {
		if !broken[notes[i].File] {
			differ[i] = notes[i].NotPortable()
		}
	})
	for _, d := range differ {
		if d == nil {
			continue
		}
		said := "programs that take this for YAML do not read " + quote(d.Typed) + ": they read it as " + quote(d.Read)
		if d.Stops != "" {
			said = "programs that take this for YAML stop here: " + d.Stops
		}
		p.Report(d.At, said, "Put the value in quotes if other programs should read it as you typed it.")
	}
}

// brokenFront are mistakes over which other programs stumble too: one mistake, one message.
var brokenFront = []source.Flaw{note.NotALine, note.RepeatedKey, note.RepeatedName, note.TabIndentation, note.EmptyEntry, note.NotUTF8}
