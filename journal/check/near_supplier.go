package check

import (
	"guidecoat/journal/near"
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var nearSupplier = &Check{
	Name:     "near-supplier",
	Severity: problem.Warning,
	Summary:  "two suppliers that differ by a letter or two, or in capitals alone",
	Explain: "What was paid is added up by supplier as each is spelled, so a slip parts one supplier in two. " +
		"The rarer spelling is named, or the later one.",
	Example: "---\nstage: rear axle\ncost:\n  - 9.00 seals; from Tidewell Dismantlers\nwrong|  - 6.49 grease; from Tidewel Dismantlers\nright|  - 6.49 grease; from Tidewell Dismantlers\n---\n",
	Run: func(p *Pass) {
		names, used := suppliers(p)
		var known near.Index
		for _, name := range names {
			if like := known.Slip(name); like != "" && !disguised(like, name) {
				odd, usual := name, like
				if len(used[like]) < len(used[name]) {
					odd, usual = like, name
				}
				p.Report(used[odd][0], "the supplier "+quote(odd)+" is close to "+quote(usual), "Nearest: "+quote(usual)+". Spell both the same if they are one.")
			}
		}
	},
}

// disguised tells whether two names look alike; that is another check's.
func disguised(a, b string) bool {
	a, _ = near.Latin(a)
	b, _ = near.Latin(b)
	return a == b
}

// suppliers are the names behind `from`, in the order of first use, and where each stands.
func suppliers(p *Pass) (names []string, used map[string][]source.Span) {
	used = map[string][]source.Span{}
	for _, s := range p.State.Build.Sessions {
		for _, l := range s.Note.Lines {
			name, ok := note.Arg[string](l, "from")
			if !ok || p.leftOut(l) || name == "" {
				continue
			}
			if used[name] == nil {
				names = append(names, name)
			}
			used[name] = append(used[name], l.Clause("from").Arg.Whole())
		}
	}
	return names, used
}
