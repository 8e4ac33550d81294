package main

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// mostMemory is what a run over every trap at once may take: an ordinary computer
// has sixteen times as much.
const mostMemory = 1 << 30

// TestTrapsTakeLittleMemory reads all traps in one run.
func TestTrapsTakeLittleMemory(t *testing.T) {
	program, dir := filepath.Join(t.TempDir(), "guidecoat"), memoryDir(t)
	if out, err := exec.Command("go", "build", "-o", program, ".").CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	err := os.WriteFile(filepath.Join(dir, "build.md"), []byte(pathologicalCard), 0o644)
	for i, c := range traps() {
		name := fmt.Sprintf("2026-04-11 %d.md", i)
		err = errors.Join(err, os.WriteFile(filepath.Join(dir, name), []byte("---\ndate: 2026-04-11\n"+c.front+"---\n"+c.body), 0o644))
	}
	endless := filepath.Join(dir, "2026-04-12.md") // takes no room on the disk
	err = errors.Join(err, os.WriteFile(endless, nil, 0o644), os.Truncate(endless, 8<<30))
	if err != nil {
		t.Fatal(err)
	}
	for _, command := range []string{"proofread", "snags"} {
		limited := fmt.Sprintf(`ulimit -d %d && exec "$0" "$@"`, mostMemory>>10)
		var errs bytes.Buffer
		cmd := exec.Command("sh", "-c", limited, program, command, dir, "--json")
		cmd.Stderr = &errs
		err := cmd.Run()
		if cmd.ProcessState == nil || cmd.ProcessState.ExitCode() != exitProblems {
			t.Errorf("%s: %v\n%.300s", command, err, errs.String())
		}
	}
}
