package main

import (
	"cmp"
	"fmt"
	"strings"

	"guidecoat/journal/fact"
	"guidecoat/journal/note"
	"guidecoat/journal/view"
)

// plan prints what to do over the next days, and what to order so that nothing waits.
func (s *screen) plan(p *place, v *view.View, plan *fact.Plan) {
	if plan != nil && len(plan.Jobs) > 0 {
		s.gap()
		name := ""
		if p.garage != nil {
			name = p.name(v) + ": "
		}
		s.say("", fmt.Sprintf("%sThe %d days from %s on, at %s a week, what is dangerous or due first:", name, plan.Days, v.Today, plan.Pace))
		t := table{columns: []column{{head: "done by"}, {head: "takes", right: true}, {head: "severity"}, {head: "snag", least: 12}}}
		for _, job := range plan.Jobs {
			time, said := job.Time()
			takes := time.String()
			if !said {
				takes = "about " + takes
			}
			t.rows = append(t.rows, row{cells: []string{job.Done.String(), takes, job.Severity.String(), cmp.Or(job.ID, note.PlainWords(job.Words))}})
		}
		t.print(s)
		if more := later(plan); more != "" {
			s.say("", more)
		}
	}
	if order := toOrder(v); order != "" {
		s.say("", "Order today, so that nothing waits: "+order+".")
	}
}

// later says what the table does not hold.
func later(plan *fact.Plan) string {
	var said []string
	switch plan.More {
	case 0:
	case 1:
		said = append(said, "1 snag comes later.")
	default:
		said = append(said, fmt.Sprintf("%d snags come later.", plan.More))
	}
	if plan.Rest > 0 {
		said = append(said, fmt.Sprintf("The stages' other work, %s, comes on top.", plan.Rest))
	}
	return strings.Join(said, " ")
}

// toOrder names the parts that nobody has ordered and something waits for, what holds up
// most first.
func toOrder(v *view.View) string {
	var list []string
	for _, h := range v.Holdups() {
		if h.Part.State != "needed" {
			continue
		}
		text := h.Part.ID
		if h.Part.Supplier != "" {
			text += " from " + h.Part.Supplier
		}
		list = append(list, text)
	}
	return idList(list)
}
