package main

import (
	"encoding/json"
	"errors"
	"go/parser"
	"go/token"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
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

// moduleRow is a row of the table of modules in DEVELOPERS.md.
var moduleRow = regexp.MustCompile("(?m)^\\| `([^` ]+\\.[^` ]+/[^` ]+)` \\| ([^|]{10,}) \\|$")

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
	for _, row := range moduleRow.FindAllStringSubmatch(string(text), -1) {
		listed[row[1]] = true
	}
	for _, line := range regexp.MustCompile(`(?m)^\s+(\S+\.\S+/\S+) v\S+$`).FindAllStringSubmatch(string(requires), -1) {
		if !listed[line[1]] {
			t.Errorf("DEVELOPERS.md does not say why %s is there", line[1])
		}
		delete(listed, line[1])
	}
	for name := range listed {
		t.Errorf("DEVELOPERS.md explains %s, which go.mod does not require", name)
	}
}

// What DEVELOPERS.md says is there for tests is in no program, and what it says
// nothing of tests is in one.
func TestWhatIsForTestsIsInNoProgram(t *testing.T) {
	text, err := os.ReadFile("../../DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	used := map[string]bool{}
	for _, tags := range []string{"", "heic,nodynamic"} {
		out, err := exec.Command("go", "list", "-deps", "-tags", tags, "-f", "{{with .Module}}{{.Path}}{{end}}", "guidecoat/cmd/...").Output()
		if err != nil {
			t.Skipf("go list: %v", err)
		}
		for path := range strings.FieldsSeq(string(out)) {
			used[path] = true
		}
	}
	if len(used) < 10 {
		t.Errorf("only %d modules are used", len(used))
	}
	rows := moduleRow.FindAllStringSubmatch(string(text), -1)
	for _, row := range rows {
		if path, forTests := row[1], strings.HasPrefix(row[2], "tests: "); used[path] == forTests {
			t.Errorf("DEVELOPERS.md says of %s %q; whether a program has it: %v", path, row[2], used[path])
		}
	}
	if len(rows) < 10 {
		t.Errorf("only %d modules were found", len(rows))
	}
}

// listening are the packages that may have to do with a network.
var listening = []string{
	"guidecoat/cmd/guidecoat",              // of which see below
	"github.com/spf13/pflag",               // has flags of addresses
	"github.com/creachadair/jrpc2/channel", // may speak over connections; the language server speaks over standard input and output
	"github.com/arran4/golang-ical",        // may read a calendar from an address; only its writer is called
}

// The preview listens; nothing else has to do with a network, and nothing fetches.
func TestNothingIsFetched(t *testing.T) {
	out, err := exec.Command("go", "list", "-deps", "-f", "{{if not .Standard}}{{$p := .ImportPath}}{{range .Imports}}{{$p}} {{.}}\n{{end}}{{end}}", ".").Output()
	if err != nil {
		t.Skipf("go list: %v", err)
	}
	for line := range strings.Lines(string(out)) {
		f := strings.Fields(line)
		if importer, imported := f[0], f[1]; reachesOut(imported) && !slices.Contains(listening, importer) {
			t.Errorf("%s imports %s", importer, imported)
		}
	}
	files, err := filepath.Glob("*.go")
	if err != nil || len(files) < 20 {
		t.Fatalf("%d files, %v", len(files), err)
	}
	for _, name := range files {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, data, 0)
		if err != nil {
			t.Fatal(err)
		}
		for _, spec := range file.Imports {
			if path, _ := strconv.Unquote(spec.Path.Value); reachesOut(path) && !strings.HasPrefix(name, "preview") {
				t.Errorf("%s imports %s", name, path)
			}
		}
		if found := fetching.Find(data); found != nil {
			t.Errorf("%s fetches: %s", name, found)
		}
	}
}

func reachesOut(path string) bool {
	return (path == "net" || strings.HasPrefix(path, "net/")) && path != "net/url" && path != "net/netip" || strings.HasPrefix(path, "golang.org/x/net/")
}

// fetching is what a program calls that begins a connection.
var fetching = regexp.MustCompile(`\b(net\.(Dial|Lookup|Resolve)|http\.(Get|Post|Head|New(Request|FileTransport)|Default(Client|Transport)|Client|Transport))\w*\b`)

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
