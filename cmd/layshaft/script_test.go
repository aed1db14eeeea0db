package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"layshaft": main})
}

// The command line as people use it: each script under testdata/script types commands and says what must come out.
func TestScripts(t *testing.T) {
	boxes, err := filepath.Abs("../../testdata")
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir: "testdata/script",
		Setup: func(e *testscript.Env) error {
			for _, name := range []string{"alder.yaml", "birch.yaml", "birch-bench.yaml"} {
				data, err := os.ReadFile(filepath.Join(boxes, name))
				if err != nil {
					return err
				}
				if err := os.WriteFile(filepath.Join(e.WorkDir, name), data, 0o644); err != nil {
					return err
				}
			}
			return nil
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){"code": code, "replace": replace},
	})
}

// code runs a command and wants this very exit code: "code 2 layshaft check". Its output is checked by stdout and stderr as usual.
func code(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: code N command [args]")
	}
	want := args[0]
	err := ts.Exec(args[1], args[2:]...)
	got := "0"
	if err != nil {
		got = err.Error()[len("exit status "):]
	}
	if got != want {
		ts.Fatalf("exit code %s, want %s", got, want)
	}
}

// replace puts one text in the place of another that must be there, in each file: "replace OLD NEW FILE…". \n stands for the end of a line.
func replace(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 3 {
		ts.Fatalf("usage: replace OLD NEW FILE…")
	}
	old, with := strings.ReplaceAll(args[0], `\n`, "\n"), strings.ReplaceAll(args[1], `\n`, "\n")
	for _, file := range args[2:] {
		before := ts.ReadFile(file)
		if !strings.Contains(before, old) {
			ts.Fatalf("%s doesn't hold %q", file, old)
		}
		ts.Check(os.WriteFile(ts.MkAbs(file), []byte(strings.Replace(before, old, with, 1)), 0o644))
	}
}
