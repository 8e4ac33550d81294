package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
	"golang.org/x/tools/txtar"
)

var update = flag.Bool("update", false, "rewrite what the scripts compare with")

// TestMain lets the scripts run guidecoat as a program of its own, on a day that
// never changes. What can be made again is kept where a script says so.
func TestMain(m *testing.M) {
	day := func() time.Time { return time.Date(2026, 11, 25, 20, 0, 0, 0, time.UTC) }
	testscript.Main(m, map[string]func(){
		"guidecoat": func() {
			os.Exit(run(context.Background(), world{os.Args[1:], os.Stdin, os.Stdout, os.Stderr, os.Getenv, day, os.Getenv("XDG_CACHE_HOME")}))
		},
	})
}

// TestScripts runs testdata/script. Each script finds the build of
// testdata/halden.txtar in the folder halden. Two commands are ours:
//
//	exits N COMMAND...  runs a command that must exit with that code
//	unwritten           holds the whole of halden to what it was in the beginning
func TestScripts(t *testing.T) {
	halden, err := txtar.ParseFile("testdata/halden.txtar")
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/script",
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		UpdateScripts:       *update,
		Setup: func(env *testscript.Env) error {
			dir := filepath.Join(env.WorkDir, "halden")
			for _, f := range halden.Files {
				path := filepath.Join(dir, f.Name)
				if err := errors.Join(os.MkdirAll(filepath.Dir(path), 0o755), os.WriteFile(path, f.Data, 0o644)); err != nil {
					return err
				}
			}
			env.Values["halden"] = tree(t, dir)
			manual, err := filepath.Abs("manual")
			env.Setenv("MANUAL", manual)
			env.Setenv("NODE_PATH", os.Getenv("NODE_PATH"))
			if err != nil {
				return err
			}
			return nil
		},
		Condition: func(what string) (bool, error) {
			if what != "lsp-client" {
				return false, fmt.Errorf("there is no condition %q", what)
			}
			return exec.Command("node", "--eval", "require('vscode-languageserver-protocol/node')").Run() == nil, nil
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"exits": func(ts *testscript.TestScript, neg bool, args []string) {
				if neg || len(args) < 2 {
					ts.Fatalf("usage: exits N COMMAND [ARGUMENT...]")
				}
				code := 0
				if err := ts.Exec(args[1], args[2:]...); err != nil {
					exited, ok := errors.AsType[*exec.ExitError](err)
					if !ok {
						ts.Fatalf("%v", err)
					}
					code = exited.ExitCode()
				}
				if args[0] != strconv.Itoa(code) {
					ts.Fatalf("exit code %d, want %s", code, args[0])
				}
			},
			"unwritten": func(ts *testscript.TestScript, neg bool, _ []string) {
				before := ts.Value("halden").(map[string]string)
				if maps.Equal(before, tree(t, ts.MkAbs("halden"))) == neg {
					ts.Fatalf("whether halden was written to is not as expected")
				}
			},
		},
	})
}

// tree is every file below a folder with its content and time.
func tree(t *testing.T, dir string) map[string]string {
	files := map[string]string{}
	err := fs.WalkDir(os.DirFS(dir), ".", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		info, err := d.Info()
		if err != nil {
			return err
		}
		data, err := os.ReadFile(filepath.Join(dir, path))
		files[path] = info.ModTime().String() + "\n" + string(data)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}
