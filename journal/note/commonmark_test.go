package note

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// The examples of CommonMark 0.31.2, which goldmark carries with its own tests, as
// notes: whatever stands in them, every place lies in the file, and a body says the
// same with front matter above it as without.
func TestCommonMarkAsNotes(t *testing.T) {
	dir, err := exec.Command("go", "list", "-m", "-f", "{{.Dir}}", "github.com/yuin/goldmark").Output()
	if err != nil {
		t.Fatal(err)
	}
	data, err := os.ReadFile(filepath.Join(strings.TrimSpace(string(dir)), "_test", "spec.json"))
	if err != nil {
		t.Fatal(err)
	}
	var examples []struct{ Markdown string }
	if err := json.Unmarshal(data, &examples); err != nil || len(examples) != 652 {
		t.Fatalf("%d examples, %v", len(examples), err)
	}
	const front = "---\ndate: 2026-04-11\ntime: 3h\n---\n"
	refs := 0
	for _, e := range examples {
		checkNote(t, readNote(Session, "---\n"+e.Markdown+"\n---\n")) // as front matter
		alone, below := readNote(Session, e.Markdown), readNote(Session, front+e.Markdown)
		checkNote(t, alone)
		checkNote(t, below)
		if alone.BodyStart() > 0 || alone.Unread { // it begins as front matter does
			continue
		}
		if alone.Heading != below.Heading || alone.Lead != below.Lead || len(alone.Refs) != len(below.Refs) || len(alone.Items) != len(below.Items) || len(alone.Markup) != len(below.Markup) {
			t.Errorf("%q reads otherwise below front matter", e.Markdown)
			continue
		}
		for i, r := range alone.Refs {
			refs++
			if b := below.Refs[i]; b.Target != r.Target || b.Span.Start != r.Span.Start+int32(len(front)) || b.Span.Text() != r.Span.Text() {
				t.Errorf("%q: %q stands at %d, and at %d below front matter", e.Markdown, r.Target, r.Span.Start, b.Span.Start)
			}
		}
	}
	if refs < 100 {
		t.Errorf("only %d links and pictures", refs)
	}
}
