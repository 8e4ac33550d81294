package check

import (
	"regexp"

	"guidecoat/journal/problem"
)

var unaddedTax = &Check{
	Name:     "unadded-tax",
	Severity: problem.Warning,
	Summary:  "a description that says tax comes on top, without the clause that adds it",
	Explain:  "Without `plus vat` a price is what was paid. Words about tax in a description add nothing.",
	Bad:      "---\nstage: body\ncost: 12.50 oil + vat\n---\n",
	Good:     "---\nstage: body\ncost: 12.50 oil; plus vat\n---\n",
	Run: func(p *Pass) {
		for _, w := range p.notes() {
			for _, l := range w.note.Lines {
				if p.leftOut(l) || l.Kind.Key != "cost" || l.Has("plus vat") {
					continue
				}
				if at := taxOnTop.FindStringIndex(l.Words().S); at != nil {
					p.Report(l.Words().Span(at[0], at[1]), "no tax is added to this price", "Write \"; plus vat\" at the end if the price is without it.")
				}
			}
		}
	},
}

// taxOnTop are words for tax that is still to be added.
var taxOnTop = regexp.MustCompile(`(?i)(?:\+|\b(?:plus|ex|exc|excl|excluding|without|w/o|before)\b\.?) ?(?:[0-9.]+ ?% ?)?(?:vat\b|tax(?:[,.;)]|$))|` +
	`\bexvat\b|\b(?:vat|tax) (?:extra|on top|not included|to be added)\b|\+ ?[0-9.]+ ?%(?:[ ,;)]|$)`)
