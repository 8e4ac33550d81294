package pick

import (
	"slices"
	"strconv"
	"testing"
)

func TestPick(t *testing.T) {
	numbers := []int{3, 4, 6}
	even := func(n int) bool { return n%2 == 0 }
	if got := Map(numbers, strconv.Itoa); !slices.Equal(got, []string{"3", "4", "6"}) {
		t.Errorf("Map made %q", got)
	}
	if Map(numbers[:0], strconv.Itoa) != nil || Where(numbers[:1], even) != nil {
		t.Error("what is empty is not nil")
	}
	twice := func(n int) []int { return []int{n, n}[:n-3] }
	if got := Gather(numbers[:2], twice); !slices.Equal(got, []int{4}) || Gather(numbers[:1], twice) != nil {
		t.Errorf("Gather made %d", got)
	}
	if got := Where(numbers, even); !slices.Equal(got, []int{4, 6}) {
		t.Errorf("Where kept %d", got)
	}
	if got, none := First(numbers, even), First(numbers[:1], even); got != 4 || none != 0 {
		t.Errorf("First found %d, and %d where there is none", got, none)
	}
	if got := Count(numbers, even); got != 2 {
		t.Errorf("Count counted %d", got)
	}
	if got := By(numbers, even); !slices.Equal(got[true], []int{4, 6}) || !slices.Equal(got[false], []int{3}) {
		t.Errorf("By made %v", got)
	}
	if got := Groups([]int{4, 3, 6}, even); len(got) != 2 || !slices.Equal(got[0], []int{4, 6}) || !slices.Equal(got[1], []int{3}) {
		t.Errorf("Groups made %v", got)
	}
	if Either(true, 1, 2) != 1 || Either(false, 1, 2) != 2 {
		t.Error("Either returned the other")
	}
}
