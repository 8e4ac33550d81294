package near

import (
	"fmt"
	"testing"
	"time"
)

// However many words are near each other, asking for all of them ends soon.
func TestIndexGivesUp(t *testing.T) {
	var x Index
	from := time.Now()
	found := 0
	for i := range 30_000 {
		word := fmt.Sprintf("carrier-%c%c%c%c", 'a'+i%26, 'a'+i/26%26, 'a'+i/26/26%26, 'a'+i/26/26/26)
		if x.Nearest(word) != "" {
			found++
		}
		x.Add(word)
	}
	if found < 100 {
		t.Errorf("only %d were near another", found)
	}
	if took := time.Since(from); took > 10*time.Second {
		t.Errorf("it took %v", took)
	}
}
