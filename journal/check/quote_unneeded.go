package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var quoteUnneeded = &Check{
	Name:     journal.QuoteUnneeded,
	Severity: problem.Warning,
	Summary:  "a quote for a part that was here already",
	Explain:  "Quotes are compared for parts that are needed. This one had come by then, so the quote is for another part, or its id is wrong.",
	Bad: `---
stage: rear axle
parts:
  rear-beam: arrived rear axle beam; new
cost: 138.00 beam; for rear-beam
quotes:
  rear-beam: 120.00; from Tidewell
---
`,
	Good: `---
stage: rear axle
parts:
  rear-beam: needed rear axle beam; new
quotes:
  rear-beam: 120.00; from Tidewell
---
`,
	Say: func(f source.Fault) (string, string) {
		return "nobody needs " + quote(f.Word) + ": it is here already", "Name the part that the quote is for, or write that this one is needed again."
	},
}
