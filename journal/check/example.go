package check

import (
	"strings"
)

// An example is the text of a session note, exampleNote, in a build with the job card
// exampleCard. Where a check needs more than one note, it is an archive of whole files,
// each below a line `-- NAME --` (the txtar form of the Go project); its job card is
// exampleCard too unless it has one of its own or a garage.md. A line that is marked as
// wrong stands only in the example that raises the check, and no other; one that is
// marked as right only in the one that raises none.
const wrongLine, rightLine = "wrong|", "right|"

// Examples are the example as it raises the check, and as it is put right.
func (c *Check) Examples() (bad, good string) {
	for line := range strings.Lines(c.Example) {
		wrong, isWrong := strings.CutPrefix(line, wrongLine)
		right, isRight := strings.CutPrefix(line, rightLine)
		if !isRight {
			bad += wrong
		}
		if !isWrong {
			good += right
		}
	}
	return bad, good
}

const exampleNote = "2026-04-11.md"

const exampleCard = `---
build: Example estate
currency: GBP
vat: 20%
rates:
  EUR: 0.86
stages:
  buying: budget 1500; purchase
  rear axle: budget 260 340 520; system suspension
  body: budget 400
---
`
