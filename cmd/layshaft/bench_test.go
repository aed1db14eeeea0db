package main

import (
	"bytes"
	"io"
	"path/filepath"
	"testing"
)

// Whole commands, from the files to the summary and the page, but for the start of the process.
func BenchmarkCommands(b *testing.B) {
	page := filepath.Join(b.TempDir(), "page.html")
	for name, args := range map[string][]string{
		"check":    {"check", alder},
		"headroom": {"headroom", alder},
		"compare":  {"compare", alder, birch, "--html", page},
	} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				run(args, env{stdin: bytes.NewReader(nil), stdout: io.Discard, stderr: io.Discard, variable: func(string) string { return "" }})
			}
		})
	}
}
