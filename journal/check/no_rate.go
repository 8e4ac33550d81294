package check

import (
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var noRate = &Check{
	Name:     journal.NoRate,
	Severity: problem.Error,
	Summary:  "another currency without a rate of exchange",
	Explain: "Every sum is turned into the build's own currency, at the rate on the line or else on the job card. " +
		"A word in capitals behind an amount, such as ALL, may happen to be a currency: write it in small letters if it is description.",
	Bad:  "---\nstage: rear axle\ncost: 240 SEK axle nuts\n---\n",
	Good: "---\nstage: rear axle\ncost: 240 SEK axle nuts; rate 0.077\n---\n",
	Say: func(f source.Fault) (string, string) {
		help := "Write \"; rate NUMBER\" on the line, or a rate of " + f.Word + " in build.md"
		if f.Span.Text() == f.Word {
			help += ", or " + quote(strings.ToLower(f.Word)) + " if it is description"
		}
		return "no rate of exchange from " + quote(f.Word) + " to " + strings.Join(f.Near, ""), help + "."
	},
}
