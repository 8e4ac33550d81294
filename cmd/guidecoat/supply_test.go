package main

import (
	"encoding/json"
	"errors"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

type module struct {
	Path, Dir string
	Main      bool
	Indirect  bool
}

// modules are those that go.mod requires and are here.
func modules(t *testing.T) []module {
	t.Helper()
	out, err := exec.Command("go", "list", "-m", "-json", "all").Output()
	if err != nil {
		t.Skipf("go list: %v", err)
	}
	var list []module
	for dec := json.NewDecoder(strings.NewReader(string(out))); ; {
		var m module
		if err := dec.Decode(&m); errors.Is(err, io.EOF) {
			return list
		} else if err != nil {
			t.Fatal(err)
		}
		if !m.Main && m.Dir != "" {
			list = append(list, m)
		}
	}
}

// DEVELOPERS.md says of every module that go.mod requires why it is there.
func TestDependenciesAreExplained(t *testing.T) {
	text, err := os.ReadFile("../../DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	requires, err := os.ReadFile("../../go.mod")
	if err != nil {
		t.Fatal(err)
	}
	listed := map[string]bool{}
	for _, row := range regexp.MustCompile("(?m)^\\| `([^`]+)` \\| [^|]{10,} \\|$").FindAllStringSubmatch(string(text), -1) {
		listed[row[1]] = true
	}
	for _, line := range regexp.MustCompile(`(?m)^\s+(\S+\.\S+/\S+) v\S+$`).FindAllStringSubmatch(string(requires), -1) {
		if !listed[line[1]] {
			t.Errorf("DEVELOPERS.md does not say why %s is there", line[1])
		}
		delete(listed, line[1])
	}
	for name := range listed {
		if strings.Contains(name, ".") && strings.Contains(name, "/") && !strings.Contains(name, " ") && !strings.HasSuffix(name, ".go") {
			t.Errorf("DEVELOPERS.md explains %s, which go.mod does not require", name)
		}
	}
}

// licences are words that only the text of that licence has, from memory. All of
// them let the program be passed on under any terms.
var licences = map[string]string{
	"MIT":        "Permission is hereby granted, free of charge, to any person obtaining a copy",
	"BSD":        "Redistribution and use in source and binary forms, with or without",
	"Apache-2.0": "Apache License Version 2.0, January 2004",
	"MPL-2.0":    "Mozilla Public License Version 2.0",
	"ISC":        "Permission to use, copy, modify, and/or distribute this software for any purpose",
}

func TestLicences(t *testing.T) {
	list := modules(t)
	for _, m := range list {
		found := ""
		files, _ := filepath.Glob(filepath.Join(m.Dir, "[LlCc][IiOo][CcPp]*"))
		for _, file := range files {
			data, err := os.ReadFile(file)
			if err != nil {
				continue
			}
			text := strings.Join(strings.Fields(string(data)), " ")
			for name, words := range licences {
				if strings.Contains(text, words) {
					found = name
				}
			}
		}
		if found == "" {
			t.Errorf("%s has no licence that is known here", m.Path)
		}
	}
	if len(list) < 10 {
		t.Errorf("only %d modules were found", len(list))
	}
}
