package check

import "strings"

// An example is the text of a session note, or an archive of whole files (txtar), in a build with the card exampleCard.
// A line marked as wrong stands only in the example that raises the check, one marked as right only in the other.
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
