package check

import (
	"slices"

	"guidecoat/journal"
	"guidecoat/journal/near"
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
)

var nearCheckName = &Check{
	Name: "near-check-name", Severity: problem.Warning,
	Summary: "a check or fastener whose name is a letter or two from one that is asked for",
	Explain: "A check settles what is due or has failed only under its exact name. " +
		"With a slip in the name that stays outstanding, although the work was done.",
	Example: "---\nchecks:\nwrong|  wheel-retorqe: done; at 91310 mi\nright|  wheel-retorque: done; at 91310 mi\n---\n",
	Run: func(p *Pass) {
		var known, failed, fasteners near.Index
		for _, f := range p.State.Build.Card.Fasteners {
			fasteners.Add(f.ID)
		}
		for _, t := range p.State.Build.Tightenings {
			like := fasteners.Nearest(t.ID)
			if due := p.State.Snag(like); like != t.ID && due != nil && due.Open {
				p.Report(t.Line.NameSpan(), "the job card lists no fastener "+quote(t.ID), "Nearest: "+quote(like)+". Only that name settles what is outstanding.")
			}
		}
		due := map[string]bool{journal.RoadworthinessTest: true}
		known.Add(journal.RoadworthinessTest)
		for _, r := range p.State.Build.DueRules() {
			known.Add(r.Name)
			due[r.Name] = true
		}
		ask := func(l *note.Line) {
			names, _ := note.Arg[note.Asks](l, "asks for")
			for _, name := range names {
				if like := known.Nearest(name); like != "" && !due[name] {
					p.Report(l.Clause("asks for").Arg.Whole(), "no check of the table is called "+quote(name), "Nearest: "+quote(like)+".")
				}
			}
		}
		for _, pl := range p.State.Build.PartLines {
			if p.looks(pl.Session) {
				ask(pl.Line)
			}
		}
		for _, a := range p.State.Build.Acts {
			if p.looks(a.Session) {
				ask(a.Line)
			}
		}
		for _, c := range p.State.Build.Checks {
			other := failed.Nearest(c.Name)
			if due[c.Name] || other == c.Name {
				continue
			}
			like := known.Nearest(c.Name)
			if otherWord(like, c.Name) && p.State.Snag(like) == nil {
				like = "" // nothing asks for a check of that name either
			}
			if like == "" && near.IsSlip(other, c.Name) {
				like = other
			}
			if like != "" {
				p.Report(c.Line.NameSpan(), "no check that falls due or has failed is called "+quote(c.Name), "Nearest: "+quote(like)+". Only that name settles what is outstanding.")
			} else if c.Result == "failed" {
				failed.Add(c.Name)
			}
		}
	},
}

// otherWord tells whether a letter of a short word makes it another word: fuse-check is no fume-check.
func otherWord(like, name string) bool {
	letters := func(s string) string {
		b := []byte(s)
		slices.Sort(b)
		return string(b)
	}
	return like != "" && len(like) == len(name) && letters(like) != letters(name) && !near.IsSlip(like, name)
}
