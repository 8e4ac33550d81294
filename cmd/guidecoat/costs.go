package main

import (
	"guidecoat/journal/export"
	"guidecoat/journal/measure"
	"guidecoat/journal/state"

	"github.com/spf13/cobra"
)

func newCosts(w *world) *cobra.Command {
	var day measure.Date
	var asJSON, asCSV, stages bool
	cmd := &cobra.Command{
		Use:   "costs [DIR]",
		Short: "Tells what it has cost and will cost.",
		Long: "Tells what the build has cost and will cost: by stage, category and supplier, with what is still to come and " +
			"the chance of the profit asked for, or what the sale has brought and how good the budgets were.\n\nA line with a mistake in it is left out, and the " +
			"answer says how many are.",
		Example: "guidecoat costs halden\nguidecoat costs halden --as-of 2026-06-01 --csv",
		PreRunE: func(cmd *cobra.Command, args []string) error {
			if stages && !asCSV {
				return wrongUsage("Write --csv --stages.", "--stages says what --csv is to print, and --csv is missing")
			}
			return alone("json csv")(cmd, args)
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "print the figures as JSON")
	cmd.Flags().BoolVar(&asCSV, "csv", false, "print every cost and credit line as CSV")
	cmd.Flags().BoolVar(&stages, "stages", false, "with --csv: print the totals of the stages instead of the lines")
	return w.answering(cmd, &day, func(p *place) error {
		switch {
		case asJSON:
			return export.Write(w.stdout, costsJSON(p, day, w.today()))
		case stages:
			return export.WriteStagesCSV(w.stdout, stageTotals(p))
		case asCSV:
			return export.WriteCSV(w.stdout, p.views()...)
		}
		return w.showCosts(p, day)
	})
}

func costsJSON(p *place, day, today measure.Date) any {
	if p.garage != nil {
		return export.GarageOf(state.GarageAt(p.garage, day, today))
	}
	return export.CostsOf(p.views()[0])
}

func stageTotals(p *place) []export.Object {
	var totals []export.Object
	for _, v := range p.views() {
		totals = append(totals, export.StageTotalsOf(p.name(v), v)...)
	}
	return totals
}

func (w *world) showCosts(p *place, day measure.Date) error {
	s := newScreen(w.stdout, w.getenv)
	if p.garage != nil {
		showGarage(s, state.GarageAt(p.garage, day, w.today()))
	} else {
		v := p.views()[0]
		showBuildCosts(s, p.name(v), v)
	}
	s.incomplete(p)
	return s.flush()
}
