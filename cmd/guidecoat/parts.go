package main

import (
	"fmt"
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/export"
	"guidecoat/journal/measure"
	"guidecoat/journal/money"
	"guidecoat/journal/state"

	"github.com/spf13/cobra"
)

func newParts(w *world) *cobra.Command {
	var day measure.Date
	var toBuy, asJSON, asCSV bool
	cmd := &cobra.Command{
		Use:   "parts [DIR]",
		Short: "Tells where every part is.",
		Long: "Tells where every part is: needed, on order and whether it is late, in hand, fitted, gone; and what surcharge is " +
			"still to come back.\n\n--to-buy makes a shopping list of what is needed, by supplier.",
		Example:           "guidecoat parts halden\nguidecoat parts halden --to-buy",
		Args:              oneFolder,
		ValidArgsFunction: completeFolders,
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := alone(cmd, "json", "csv"); err != nil {
				return err
			}
			p, err := w.load(folder(args), day)
			if err != nil {
				return err
			}
			if toBuy {
				for _, st := range p.states {
					st.Parts = filter(st.Parts, needed)
				}
			}
			switch {
			case asJSON:
				err = export.Write(w.stdout, partList(p))
			case asCSV:
				err = partList(p).WriteCSV(w.stdout)
			case toBuy:
				err = w.showShopping(p)
			default:
				err = w.showParts(p)
			}
			if err != nil {
				return cannotPrint(err)
			}
			return w.tell(p)
		},
	}
	cmd.Flags().BoolVar(&toBuy, "to-buy", false, "list what is needed, by supplier, with its estimates")
	asOf(cmd, &day, howItStood)
	cmd.Flags().BoolVar(&asJSON, "json", false, "print the parts as JSON")
	cmd.Flags().BoolVar(&asCSV, "csv", false, "print the parts as CSV")
	return cmd
}

func partList(p *place) *export.Parts {
	list := export.NewParts()
	for _, st := range p.states {
		for _, part := range st.Parts {
			list.Add(st.Build, part, p.folder(st.Build))
		}
	}
	return list
}

func filter(parts []*state.Part, keep func(*state.Part) bool) (kept []*state.Part) {
	for _, p := range parts {
		if keep(p) {
			kept = append(kept, p)
		}
	}
	return kept
}

// showParts prints the parts of each build.
func (w *world) showParts(p *place) error {
	s := newScreen(w.stdout, w.getenv)
	for i, st := range p.states {
		if i > 0 {
			s.gap()
		}
		if p.garage != nil {
			s.heading(p.name(st.Build))
			s.gap()
		}
		allParts(s, st)
	}
	if left := p.leftOut(); left != "" {
		s.gap()
		s.say("", left)
	}
	return s.flush()
}

// A field is one column of a table of parts.
type field struct {
	column
	of func(*journal.Build, *state.Part) string
}

var (
	fieldPart  = field{column{head: "part"}, func(_ *journal.Build, p *state.Part) string { return p.ID }}
	fieldWords = field{column{head: "what it is", least: 10}, func(_ *journal.Build, p *state.Part) string { return p.Description }}
	fieldState = field{column{head: "state"}, func(_ *journal.Build, p *state.Part) string { return p.State }}
	fieldSince = field{column{head: "since"}, func(_ *journal.Build, p *state.Part) string { return p.Since.String() }}
	fieldFrom  = field{column{head: "from", least: 10}, func(_ *journal.Build, p *state.Part) string { return p.Supplier }}
	fieldPaid  = field{column{head: "paid", right: true}, func(b *journal.Build, p *state.Part) string {
		if p.Paid.IsZero() && p.Free {
			return "free"
		}
		return b.ShowMoney(p.Paid)
	}}
	fieldLikely = field{column{head: "likely", right: true}, func(b *journal.Build, p *state.Part) string { return estimate(b, p, 1) }}
	fieldWorst  = field{column{head: "worst", right: true}, func(b *journal.Build, p *state.Part) string { return estimate(b, p, 2) }}
	fieldBest   = field{column{head: "best", right: true}, func(b *journal.Build, p *state.Part) string { return estimate(b, p, 0) }}
	fieldDue    = field{column{head: "due"}, func(_ *journal.Build, p *state.Part) string {
		if p.Late {
			return p.Due.String() + " late"
		}
		return p.Due.String()
	}}
)

func estimate(b *journal.Build, p *state.Part, which int) string {
	if p.Estimate == nil {
		return ""
	}
	return b.ShowMoney(p.Estimate[which])
}

func needed(p *state.Part) bool { return p.State == "needed" }

// groups are the tables of parts, in order.
var groups = []struct {
	title  string
	in     func(*state.Part) bool
	fields []field
}{
	{"Needed", needed, []field{fieldPart, fieldWords, fieldLikely, fieldFrom, fieldDue}},
	{"On order", func(p *state.Part) bool { return p.State == "ordered" }, []field{fieldPart, fieldWords, fieldPaid, fieldFrom, fieldDue}},
	{"In hand", func(p *state.Part) bool { return p.InHand() && !p.Fitted() }, []field{fieldPart, fieldWords, fieldPaid, fieldSince}},
	{"Fitted", (*state.Part).Fitted, []field{fieldPart, fieldWords, fieldPaid, fieldSince}},
	{"Gone", func(p *state.Part) bool { return !p.Waited() && !p.InHand() }, []field{fieldPart, fieldWords, fieldState, fieldPaid, fieldSince}},
}

// allParts prints every part of a build, group by group.
func allParts(s *screen, st *state.State) {
	empty := true
	for _, g := range groups {
		parts := filter(st.Parts, g.in)
		if len(parts) == 0 {
			continue
		}
		if !empty {
			s.gap()
		}
		empty = false
		title := fmt.Sprintf("%s: %d", g.title, len(parts))
		if late := len(filter(parts, func(p *state.Part) bool { return p.Late })); late > 0 {
			title += fmt.Sprintf(", %d late", late)
		}
		s.heading(title)
		printParts(s, st.Build, parts, g.fields)
	}
	if empty {
		s.say("", "No parts are noted.")
	}
	surcharge(s, st)
}

func printParts(s *screen, b *journal.Build, parts []*state.Part, fields []field) {
	list := make([]wanted, len(parts))
	for i, p := range parts {
		list[i] = wanted{p, b, ""}
	}
	printWanted(s, list, fields)
}

// surcharge prints what is still to come back for old parts.
func surcharge(s *screen, st *state.State) {
	if st.SurchargeDue.IsZero() {
		return
	}
	s.gap()
	s.heading("Surcharge to come: " + money.Show(st.SurchargeDue, st.Build.Card.Currency))
	t := table{columns: []column{{head: "what it is", least: 10}, {head: "due"}, {head: "where"}}}
	for _, sn := range st.Snags {
		if sn.Source != state.FromSurcharge || !sn.Open {
			continue
		}
		due := sn.Due.String()
		if sn.Overdue {
			due += " overdue"
		}
		t.add(strings.TrimSuffix(sn.PlainWords(), ", to come back for the old part"), due, fmt.Sprintf("%s:%d", sn.Span.File.Path, sn.Line()))
	}
	t.print(s)
}
