package note

import (
	"fmt"
	"os"
	"strings"
	"testing"
)

// The manual's table of limits is that of the code.
func TestLimitsAreInTheManual(t *testing.T) {
	manual, err := os.ReadFile("../../cmd/guidecoat/manual/limits.md")
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range []string{
		fmt.Sprintf("| a note | %d MiB |", MaxSize>>20),
		fmt.Sprintf("| semicolons in one line or snag | %d |", maxClauses),
		fmt.Sprintf("| quotes and lists that a line stands in | %d |", maxNesting),
		fmt.Sprintf("| marks of emphasis, links, code, markup and entities in one paragraph | %d |", maxMarks),
	} {
		if !strings.Contains(string(manual), row) {
			t.Errorf("the manual has no row %q", row)
		}
	}
}
