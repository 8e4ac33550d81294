package check

import (
	"guidecoat/journal"
	"guidecoat/journal/near"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var nearSupplier = &Check{
	Name: "near-supplier", Severity: problem.Warning,
	Summary: "two suppliers that differ by a letter or two, or in capitals alone",
	Explain: "What was paid is added up by supplier as each is spelled, so a slip parts one supplier in two. " +
		"The rarer spelling is named, or the later one.",
	Example: "---\nstage: rear axle\ncost:\n  - 9.00 seals; from Tidewell Dismantlers\nwrong|  - 6.49 grease; from Tidewel Dismantlers\nright|  - 6.49 grease; from Tidewell Dismantlers\n---\n",
	Run: func(p *Pass) {
		var known near.Index
		used := p.from().used
		for _, name := range p.from().names {
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

// suppliers are the names behind `from`, in the order of first use, and where each stands
// in a line that counts.
type suppliers struct {
	names, all []string // those of lines that count, and of any
	used       map[string][]source.Span
}

func suppliersOf(b *journal.Build) *suppliers {
	s := &suppliers{used: map[string][]source.Span{}}
	for _, in := range b.Sessions {
		for _, l := range in.Note.Lines {
			c := l.Clause("from")
			if c == nil {
				continue
			}
			name, ok := c.Value.(string)
			if !ok || name == "" {
				continue
			}
			used, known := s.used[name]
			if !known {
				s.all, s.used[name] = append(s.all, name), nil
			}
			if b.LeftOut(l) {
				continue
			}
			if used == nil {
				s.names = append(s.names, name)
			}
			s.used[name] = append(used, c.Arg.Whole())
		}
	}
	return s
}
