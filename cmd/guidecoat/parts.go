package main

import (
	"cmp"
	"fmt"
	"strings"

	"guidecoat/journal/export"
	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/money"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/view"

	"github.com/shopspring/decimal"
	"github.com/spf13/cobra"
)

func newParts(w *world) *cobra.Command {
	var day measure.Date
	var toBuy, sheet, asJSON, asCSV bool
	cmd := &cobra.Command{
		Use:   "parts [DIR]",
		Short: "Tells where every part is.",
		Long: "Tells where every part is: needed, on order and whether it is late, in hand, fitted, gone; and what surcharge is " +
			"still to come back.\n\n--to-buy makes a shopping list of what is needed, by supplier. " +
			"--fasteners prints the sheet for the bench: the torques and angles that the job card lists, with boxes to fill in by hand.",
		Example: "guidecoat parts halden\nguidecoat parts halden --to-buy",
		PreRunE: alone("json csv fasteners"),
	}
	cmd.Flags().BoolVar(&toBuy, "to-buy", false, "list what is needed, by supplier, with its estimates")
	cmd.Flags().BoolVar(&sheet, "fasteners", false, "print the fasteners of the job card to tick at the bench")
	cmd.Flags().BoolVar(&asJSON, "json", false, "print the parts as JSON")
	cmd.Flags().BoolVar(&asCSV, "csv", false, "print the parts as CSV")
	return w.answering(cmd, &day, func(p *place) error {
		views := p.views()
		if toBuy {
			for _, v := range views {
				v.Parts = pick.Where(v.Parts, needed)
			}
		}
		switch {
		case asJSON:
			return export.Write(w.stdout, partsJSON(p, views, toBuy))
		case asCSV:
			return export.WritePartsCSV(w.stdout, partsOf(p, views))
		case sheet:
			return w.showEach(p, views, fastenerSheet).flush()
		case toBuy:
			return w.showShopping(p, views)
		}
		s := w.showEach(p, views, allParts)
		s.below(p.leftOut())
		return s.flush()
	})
}

func partsOf(p *place, views []*view.View) []export.Object {
	return pick.Gather(views, func(v *view.View) []export.Object {
		return pick.Map(v.Parts, func(part *view.PartView) export.Object { return export.PartOf(v, part, p.folder(v)) })
	})
}

func partsJSON(p *place, views []*view.View, toBuy bool) export.Object {
	out := export.Under("parts", partsOf(p, views))
	if donors := pick.Gather(views, func(v *view.View) []export.Object { return export.DonorsOf(v, p.folder(v)) }); donors != nil {
		out = append(out, export.Under("donors", donors)...)
	}
	if toBuy {
		quotes := pick.Gather(views, func(v *view.View) []export.Object { return export.QuotesOf(v, p.folder(v)) })
		out = append(out, export.Under("quotes", quotes)...)
	}
	return out
}

// showEach shows something of each build, in a garage below its name.
func (w *world) showEach(p *place, views []*view.View, show func(*screen, *view.View)) *screen {
	s := newScreen(w.stdout, w.getenv)
	for _, v := range views {
		s.gap()
		if name := p.nameAmong(v); name != "" {
			s.heading(name)
			s.gap()
		}
		show(s, v)
	}
	return s
}

type field struct {
	column
	of func(wanted) string
}

var (
	fieldPart   = field{column{head: "part"}, func(p wanted) string { return p.ID }}
	fieldWords  = field{column{head: "what it is", least: 10}, func(p wanted) string { return p.Description }}
	fieldState  = field{column{head: "state"}, func(p wanted) string { return p.State }}
	fieldSince  = field{column{head: "since"}, func(p wanted) string { return p.Since.String() }}
	fieldFrom   = field{column{head: "from", least: 10}, func(p wanted) string { return p.Supplier }}
	fieldSource = field{column{head: "came from", least: 10}, func(p wanted) string { return cmp.Or(p.Donor, p.Supplier) }}
	fieldPaid   = field{column{head: "paid", right: true}, func(p wanted) string {
		if p.Paid.IsZero() && p.Free {
			return "free"
		}
		return money.Show(*p.Paid, p.v.Currency)
	}}
	fieldLikely = field{column{head: "likely", right: true}, func(p wanted) string { return estimate(p, 1) }}
	fieldWorst  = field{column{head: "worst", right: true}, func(p wanted) string { return estimate(p, 2) }}
	fieldBest   = field{column{head: "best", right: true}, func(p wanted) string { return estimate(p, 0) }}
	fieldDue    = field{column{head: "due"}, func(p wanted) string {
		if p.Late {
			return p.Due.String() + " late"
		}
		return p.Due.String()
	}}
)

func estimate(p wanted, which int) string {
	if p.Estimate == nil {
		return ""
	}
	return money.Show(p.Estimate[which], p.v.Currency)
}

func needed(p *view.PartView) bool { return p.State == "needed" }

var groups = []struct {
	title  string
	in     func(*view.PartView) bool
	fields []field
}{
	{"Needed", needed, []field{fieldPart, fieldWords, fieldLikely, fieldFrom, fieldDue}},
	{"On order", func(p *view.PartView) bool { return p.State == "ordered" }, []field{fieldPart, fieldWords, fieldPaid, fieldFrom, fieldDue}},
	{"In hand", func(p *view.PartView) bool { return p.InHand() && !p.Fitted() }, []field{fieldPart, fieldWords, fieldPaid, fieldSource, fieldSince}},
	{"Fitted", func(p *view.PartView) bool { return p.Fitted() }, []field{fieldPart, fieldWords, fieldPaid, fieldSource, fieldSince}},
	{"Gone", func(p *view.PartView) bool { return !p.Waited() && !p.InHand() }, []field{fieldPart, fieldWords, fieldState, fieldPaid, fieldSince}},
}

func allParts(s *screen, v *view.View) {
	empty := true
	for _, g := range groups {
		parts := pick.Where(v.Parts, g.in)
		if len(parts) == 0 {
			continue
		}
		if !empty {
			s.gap()
		}
		empty = false
		title := fmt.Sprintf("%s: %d", g.title, len(parts))
		s.heading(title + some(pick.Count(parts, func(p *view.PartView) bool { return p.Late }), ", %d late"))
		printWanted(s, pick.Map(parts, func(p *view.PartView) wanted { return wanted{PartView: p, v: v} }), g.fields)
	}
	if empty {
		s.say("", "No parts are noted.")
	}
	donors(s, v)
	surcharge(s, v)
}

func donors(s *screen, v *view.View) {
	if len(v.Donors) == 0 {
		return
	}
	s.gap()
	s.heading("Donors")
	show := func(d *decimal.Decimal) string { return money.Show(*d, v.Currency) }
	t := table{columns: []column{{head: "donor"}, {head: "what it is", least: 10}, {head: "cost", right: true}, {head: "in parts", right: true},
		{head: "left", right: true}, {head: "still worth", right: true}}}
	for _, d := range v.Donors {
		words := together(", ", d.Words, pick.Either(d.Category != "", "category "+d.Category, ""))
		t.add(d.Name, words, show(d.Price), show(d.Spread), show(d.Left), show(d.Holds))
	}
	t.print(s)
	s.say("", "What is left stays in the garage.")
}

func surcharge(s *screen, v *view.View) {
	due := v.Money.Costs.SurchargeDue
	if due.IsZero() {
		return
	}
	s.gap()
	s.heading("Surcharge to come: " + money.Show(due, v.Currency))
	t := table{columns: []column{{head: "what it is", least: 10}, {head: "due"}, {head: "where"}}}
	for _, sn := range v.Snags {
		if sn.Source != fact.FromSurcharge || !sn.Open {
			continue
		}
		due := sn.Due.String()
		if sn.Overdue {
			due += " overdue"
		}
		t.add(strings.TrimSuffix(note.PlainWords(sn.Typed), ", to come back for the old part"), due, fmt.Sprintf("%s:%d", sn.Note, sn.Line))
	}
	t.print(s)
}

// fastenerSheet is for the bench: each fastener below its part, with a box to tick and room for what was done.
func fastenerSheet(s *screen, v *view.View) {
	if len(v.Fasteners) == 0 {
		s.say("", "The job card lists no fasteners.")
		return
	}
	part := ""
	for _, f := range v.Fasteners {
		if f.Part != part {
			if part != "" {
				s.gap()
			}
			part = f.Part
			heading := part
			if words := strings.ReplaceAll(part, "-", " "); f.PartName != words {
				heading += ": " + f.PartName
			}
			s.heading(heading)
		}
		lines := benchLines(f)
		s.b.WriteString(lines[0] + "\n")
		for _, line := range lines[1:] {
			s.say("    ", line)
		}
	}
}

func benchLines(f *view.FastenerView) []string {
	box := pick.Either(f.Done, "[x] ", "[ ] ")
	once, height := pick.Either(f.SingleUse, "single use", ""), pick.Either(f.RideHeight, "at ride height", "")
	lines := []string{box + f.ID + ": " + f.Asked, together("; ", "from "+f.Least+" to "+f.Most, once, height, f.Words)}
	if n := len(f.Tightened); n > 0 {
		t := f.Tightened[n-1]
		lines = append(lines, together("; ", "tightened to "+t.How+" on "+t.Date.String(), t.Lacks.String()))
	}
	if !f.Done {
		lines = append(lines, together(" ", "torque ________"+strings.Repeat(" + angle ________", f.Angles),
			pick.Either(f.SingleUse, "new [ ]", ""), pick.Either(f.RideHeight, "at ride height [ ]", ""), "date ________"))
	}
	return lines
}
