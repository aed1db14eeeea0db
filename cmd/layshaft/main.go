// Layshaft tells how much torque a gearbox has left.
//
// It reads plain-text box files (YAML), works out what every shaft, bearing and tooth sees at the input torque, and prints
// a margin summary; with --html it also writes one page with charts that opens without a network.
//
//	layshaft check alder.yaml                       one box, every speed
//	layshaft compare alder.yaml birch.yaml          two boxes side by side
//	layshaft ratios alder.yaml                      how fast and how hard it pulls, speed by speed
//	layshaft new my-box.yaml                        a commented file to start from
//	layshaft materials                              the steels it knows
//
// Exit codes: 0 every limit holds, 1 a limit is exceeded, 2 wrong flags or input and nothing written, 3 internal fault,
// 4 the answer can't be written.
package main

import (
	"errors"
	"io"
	"os"
	"runtime/debug"
)

// garbage is how many per cent of what is in use may lie about before it is collected. Boxes are small and many are made; what this saves is an eighth of the time, for 20 MB.
const garbage = 300

func main() {
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(garbage)
	}
	if lost(os.Stdout) {
		os.Stderr.WriteString("layshaft: standard output is closed or leads nowhere: the answer is lost\n")
	}
	os.Exit(run(os.Args[1:], env{stdin: os.Stdin, stdout: os.Stdout, stderr: os.Stderr, variable: os.Getenv}))
}

// lost reports whether what is written to a file that was handed over goes nowhere without anybody having said so. A file that was closed is opened by
// the runtime as the null device, for reading and writing; who means it, as by > /dev/null, opens it for writing alone.
func lost(f *os.File) bool {
	null, err := os.Stat(os.DevNull)
	if err != nil {
		return false
	}
	info, err := f.Stat()
	if err != nil || !os.SameFile(info, null) {
		return false
	}
	_, err = f.Read(make([]byte, 1))
	return errors.Is(err, io.EOF)
}
