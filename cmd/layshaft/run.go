package main

import (
	"errors"
	"fmt"
	"io"
	"runtime/debug"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/spf13/pflag"

	"layshaft/gearbox/diag"
	"layshaft/reports/view"
)

// The exit codes, as the help promises them.
const (
	exitHolds    = 0
	exitExceeded = 1
	exitUsage    = 2
	exitFault    = 3
	exitUnsaid   = 4
)

// env is the world a command runs in, so that tests can run it without a process.
type env struct {
	stdin          io.Reader
	stdout, stderr io.Writer
	variable       func(string) string
}

// command is one verb of the program. flags declares its flags and returns what runs once they are parsed.
type command struct {
	name    string
	args    string // as shown in its usage line
	short   string // one line for the list of commands
	long    string // what it does, for its own help
	example string
	files   bool // its arguments are box files (for completion)
	words   []string
	flags   func(*pflag.FlagSet) action
}

// action runs a command with its arguments and returns the exit code.
type action func(args []string, e env) (int, error)

func commands() []command {
	return []command{checkCommand(), compareCommand(), headroomCommand(), sweepCommand(), spreadCommand(), ratiosCommand(), weighCommand(), gaugeCommand(), newCommand(), materialsCommand(), completionCommand()}
}

// usageError is a mistake in the command line.
type usageError struct {
	command string
	message string
	hint    string
}

func (e usageError) Error() string { return e.message }

// run executes one command line and returns its exit code.
func run(args []string, e env) (code int) {
	defer func() {
		if fault := recover(); fault != nil {
			fmt.Fprintf(e.stderr, "layshaft: internal fault: %v\nThis is a mistake in the program, not in your file. Please report it with the file and these lines:\n%s", fault, debug.Stack())
			code = exitFault
		}
	}()
	code, err := dispatch(args, e)
	if err == nil {
		return code
	}
	if u, ok := errors.AsType[usageError](err); ok {
		fmt.Fprintf(e.stderr, "layshaft: %s\n", diag.Harmless(u.message))
		if u.hint != "" {
			fmt.Fprintln(e.stderr, diag.Harmless(u.hint))
		}
		fmt.Fprintf(e.stderr, "See layshaft %s--help\n", u.command)
		return exitUsage
	}
	if !errors.Is(err, errShown) {
		fmt.Fprintf(e.stderr, "layshaft: %s\n", diag.Harmless(err.Error()))
	}
	if _, ok := errors.AsType[unsaidError](err); ok {
		return exitUnsaid
	}
	return exitUsage
}

// unsaidError is an answer that couldn't be written: the disk is full, the reader has gone.
type unsaidError struct{ error }

func (e unsaidError) Unwrap() error { return e.error }

// errShown is an error whose words are on the screen already.
var errShown = errors.New("shown")

func dispatch(args []string, e env) (int, error) {
	if len(args) == 0 {
		fmt.Fprint(e.stderr, overview())
		return exitUsage, nil
	}
	switch args[0] {
	case "-h", "--help":
		return exitHolds, write(e.stdout, overview())
	case "help":
		if len(args) == 1 {
			return exitHolds, write(e.stdout, overview())
		}
		args = []string{args[1], "--help"}
	case "-v", "--version", "version":
		return exitHolds, write(e.stdout, "layshaft "+version()+"\n")
	}
	all := commands()
	i := slices.IndexFunc(all, func(c command) bool { return c.name == args[0] })
	if i < 0 {
		var names []string
		for _, c := range all {
			names = append(names, c.name)
		}
		u := usageError{message: fmt.Sprintf("there is no command %q", args[0])}
		if near, ok := diag.Nearest(args[0], names); ok {
			u.hint = fmt.Sprintf("Did you mean %q?", near)
		}
		return exitUsage, u
	}
	return all[i].execute(args[1:], e)
}

func (c command) execute(args []string, e env) (int, error) {
	set := pflag.NewFlagSet(c.name, pflag.ContinueOnError)
	set.SetOutput(io.Discard)
	set.SortFlags = false
	act := c.flags(set)
	if err := set.ParseAll(args, once(set)); err != nil {
		if errors.Is(err, pflag.ErrHelp) {
			return exitHolds, write(e.stdout, c.help(set))
		}
		return exitUsage, c.mistake(err, set, args)
	}
	code, err := act(set.Args(), e)
	if u, ok := errors.AsType[usageError](err); ok {
		u.command = c.name + " "
		err = u
	}
	return code, err
}

func (c command) help(set *pflag.FlagSet) string {
	var b strings.Builder
	fmt.Fprintf(&b, "layshaft %s %s\n\n", c.name, c.args)
	for part := range strings.SplitSeq(c.long, "\n\n") {
		b.WriteString(folded(part, 118) + "\n")
	}
	if set.HasFlags() {
		fmt.Fprintf(&b, "Flags:\n%s\n", set.FlagUsagesWrapped(96))
	}
	fmt.Fprintf(&b, "Example:\n%s\n", c.example)
	return b.String()
}

func overview() string {
	var b strings.Builder
	b.WriteString(`layshaft tells how much torque a gearbox has left.

It reads box files: plain text that describes the shafts, bearings and gears as measured on the bench. It works out how
far each shaft bends at the input torque, how much that opens and tilts each mesh, and what stress that puts on teeth
and shafts, and sets all of it against limits. Every limit is given in one currency, the torque margin: the input torque
at which it is reached, over the torque asked about, minus one.

Commands:
`)
	for _, c := range commands() {
		fmt.Fprintf(&b, "  %-11s %s\n", c.name, c.short)
	}
	b.WriteString(`
Start here:
  layshaft new my-box.yaml
  layshaft check my-box.yaml

"layshaft COMMAND --help" tells more about each.

Exit codes: 0 every limit holds; 1 a limit is exceeded; 2 wrong flags or input, nothing written; 3 internal fault;
4 the answer can't be written (full disk, no permission).

`)
	b.WriteString(folded(view.Caution(), 118))
	return b.String()
}

// folded breaks a text into lines of at most width columns.
func folded(text string, width int) string {
	var b strings.Builder
	column := 0
	for _, word := range strings.Fields(text) {
		n := utf8.RuneCountInString(word)
		switch {
		case column > 0 && column+1+n > width:
			b.WriteByte('\n')
			column = 0
		case column > 0:
			b.WriteByte(' ')
			column++
		}
		b.WriteString(word)
		column += n
	}
	return b.String() + "\n"
}

func write(w io.Writer, s string) error {
	if _, err := io.WriteString(w, s); err != nil {
		return unsaidError{fmt.Errorf("the answer can't be written: %w", bare(err))}
	}
	return nil
}
