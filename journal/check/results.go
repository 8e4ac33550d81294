package check

import (
	"cmp"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
)

// What results of checks do, and do not.

var deniedResult = &Check{
	Name: "denied-result", Severity: problem.Warning,
	Summary: "a result or a tick whose next words take it back",
	Explain: "Words such as `no`, `tomorrow`, `result pending` and `on one side only`, right behind the result, take it back: the check settles nothing. " +
		"A check that found a fault has failed, even where it was carried out.",
	Example: "---\nchecks:\nwrong|  fume-check: done, weeps at the left union\nright|  fume-check: failed, weeps at the left union\n---\n",
	Run: func(p *Pass) {
		look := func(l *note.Line, name string) {
			if words := journal.Denial(l, l.Words()); words.S != "" {
				p.Report(words.Whole(), quote(name)+" settles nothing: these words take back that it was "+l.HeadSpan().Text(),
					"Write \"failed\" if it did not pass, the line when it is done, or \"; sure\" at the end if it counts as it stands.")
			}
		}
		for _, a := range p.State.Build.Acts {
			if !a.Ticked || !p.looks(a.Session) {
				continue
			}
			if words := journal.Denial(a.Line, a.Item.Words()); words.S != "" {
				p.Report(words.Whole(), "the tick clears this, and these words take back that it is done", "Leave the box empty while it is not, or write \"; sure\" at the end.")
			}
		}
		for _, c := range p.State.Build.Checks {
			look(c.Line, c.Name)
		}
		for _, i := range p.State.Build.Inspections {
			if i.Line.Name == "" { // one that is a check was looked at
				look(i.Line, i.Line.Kind.Key)
			}
		}
	},
}

var settlesNothing = &Check{
	Name: "settles-nothing", Severity: problem.Warning,
	Summary: "a check that settles nothing: too soon, or only done after it failed",
	Explain: "Wheel fixings, for one, are torqued again only after some distance, since they settle as they are driven. " +
		"A check before that distance, or one for which nobody can tell, stays outstanding. So does one that failed, until it has passed.",
	Example: `---
stage: rear axle
odometer: 91252 mi
parts:
  rear-beam: refitted rear axle beam
checks:
wrong|  wheel-retorque: done; at 91260 mi
right|  wheel-retorque: done; at 91310 mi
---
`,
	Run: func(p *Pass) {
		for _, c := range p.all().ChecksToTell {
			if !c.Late {
				p.Report(c.At, quote(c.Name)+" settles nothing: "+c.Why, c.Help)
			}
		}
	},
}

var settlesLate = &Check{
	Name: "settles-late", Severity: problem.Information,
	Summary: "a check that settles what was due, but after more distance than it should",
	Explain: "Some checks are to be carried out between two distances: sooner they tell nothing, and later the vehicle was driven on what nobody " +
		"had looked at. A late one counts; the record tells that it was late.",
	Example: `---
stage: rear axle
odometer: 91252 mi
parts:
  rear-beam: refitted rear axle beam
checks:
wrong|  wheel-retorque: done; at 91400 mi
right|  wheel-retorque: done; at 91300 mi
---
`,
	Run: func(p *Pass) {
		for _, c := range p.all().ChecksToTell {
			if c.Late {
				p.Report(c.At, quote(c.Name)+" was carried out "+c.Why, "It counts, and the record tells that it was late.")
			}
		}
	},
}

var nothingBefore = &Check{
	Name: "nothing-before", Severity: problem.Warning,
	Summary: "work on high voltage, restraints or structure without what has to come before it",
	Explain: "Some work can kill whoever does it, or others: high voltage is isolated and proved dead first, an airbag's battery is off for as long as its maker " +
		"says, and before welding the battery is off, the fuel safe and somebody watching for fire. Write that check in the same note or in an earlier one of that day. " +
		"Where the work touched nothing of the kind, say `asks for nothing` on the part's line, or `sure` on a line of time.",
	Example: "---\nstage: body\nparts:\n  rail-end-left: refitted rail end, left, welded; system structure\nright|checks:\nright|  weld-ready: done battery off, tank shielded, Pia watched\n---\n",
	Run: func(p *Pass) {
		for _, u := range p.all().Unprepared() {
			message, help := "work on "+u.System+" without "+quote(u.Rule.Name)+" before it", "Write it under \"checks\" in the same note if it was done ("+u.Rule.Does+"), else \"asks for nothing\" or \"sure\" on the line."
			if u.After != nil {
				message = "work on " + u.System + ", and " + quote(u.Rule.Name) + " only comes after it, at " + place(u.After.Line.NameSpan())
			}
			p.Report(u.At, message, help)
		}
	},
}

var beforeTheWork = &Check{
	Name: "before-the-work", Severity: problem.Information,
	Summary: "a check that was carried out before the work that makes it due",
	Explain: "A check settles only what was done before it, in its own session or an earlier one. One from before the work says nothing of " +
		"the work: it has to be carried out again. If it was in fact done afterwards, the date of one of the two notes is wrong.",
	Example: `wrong|-- 2026-04-11.md --
wrong|---
wrong|stage: rear axle
wrong|checks:
wrong|  alignment: passed
wrong|---
-- 2026-04-12.md --
---
stage: rear axle
odometer: 91252 mi
parts:
  rear-beam: refitted rear axle beam
---
right|-- 2026-04-13.md --
right|---
right|stage: rear axle
right|checks:
right|  alignment: passed
right|---
`,
	Run: func(p *Pass) {
		last := map[string]*journal.CheckLine{}
		for _, c := range p.State.Build.Checks {
			last[c.Name] = c
		}
		for _, s := range p.State.Snags {
			c := last[s.ID]
			if s.Source == fact.FromDue && s.Open && c != nil && c.Result != "failed" && c.Session.Place < s.Session.Place {
				p.Report(c.Line.HeadSpan(), quote(c.Name)+" was carried out before the work that makes it due, at "+place(s.Span), "It is still due: carry it out again, or correct the date of the note.")
			}
		}
	},
}

var oneSided = &Check{
	Name: "one-sided", Severity: problem.Warning,
	Summary: "a value below zero that has a limit on one side only",
	Explain: "An angle such as toe or thrust goes both ways: with a most alone, the worst error to the other side passes. " +
		"Name both limits, with `within A..B`, or with `spec V ±T`.",
	Example: "---\nstage: rear axle\nreadings:\nwrong|  thrust-angle: -0.9 deg; max 0.15 deg\nright|  thrust-angle: -0.1 deg; within -0.15..0.15 deg\n---\n",
	Run: func(p *Pass) {
		limits := map[string]note.Limits{}
		for _, r := range p.State.Build.Readings {
			lim := r.Limits.After(limits[r.Name])
			limits[r.Name] = lim
			one := cmp.Or(lim.Min, lim.Max)
			// A temperature is below zero by its scale, and may well have one limit.
			if one == nil || lim.Min != nil && lim.Max != nil || r.Value.Unit.Kind == measure.Temperature {
				continue
			}
			if r.Value.Value.IsNegative() || one.Value.IsNegative() {
				p.Report(r.Line.HeadSpan(), quote(r.Name)+" goes both ways, and has a limit on one side only", "Write both, such as \"within A..B\".")
			}
		}
	},
}
