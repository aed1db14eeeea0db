package main

import (
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"unicode"

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
		Cmds: map[string]func(*testscript.TestScript, bool, []string){"code": code, "escape": escape, "replace": replace},
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

// escape runs a script's command whose arguments may hold any character, written as in Go ("\x1b"), and wants none of those that move a cursor or hide
// themselves in what comes out: "escape code 2 layshaft check 'a\x1b[31m.yaml'".
func escape(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 3 || args[0] != "code" {
		ts.Fatalf("usage: escape code N command [args]")
	}
	typed := make([]string, len(args)-1)
	for i, a := range args[1:] {
		text, err := strconv.Unquote(`"` + strings.ReplaceAll(a, `"`, `\"`) + `"`)
		ts.Check(err)
		typed[i] = text
	}
	code(ts, false, typed)
	for _, name := range []string{"stdout", "stderr"} {
		said := ts.ReadFile(name)
		if at := strings.IndexFunc(said, func(r rune) bool { return r != '\n' && !unicode.IsPrint(r) && !unicode.IsSpace(r) || r == '\r' }); at >= 0 {
			ts.Fatalf("%s holds %q", name, said[at:min(at+20, len(said))])
		}
	}
}
