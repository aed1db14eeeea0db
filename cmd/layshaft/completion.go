package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/spf13/pflag"
)

func completionCommand() command {
	return command{
		name: "completion", args: "bash|zsh|fish", words: []string{"bash", "zsh", "fish"},
		short: "print a completion script for a shell",
		long:  `Prints a script that completes commands, flags and their words. Load it from the shell's start file.`,
		example: `  source <(layshaft completion bash)
  source <(layshaft completion zsh)
  layshaft completion fish | source`,
		flags: func(*pflag.FlagSet) action {
			return func(args []string, e env) (int, error) {
				if len(args) != 1 {
					return exitUsage, usageError{message: "for which shell? bash, zsh or fish"}
				}
				script, ok := map[string]func() string{"bash": bash, "zsh": zsh, "fish": fish}[args[0]]
				if !ok {
					return exitUsage, usageError{message: fmt.Sprintf("there is no script for %q; bash, zsh and fish have one", args[0])}
				}
				return exitHolds, write(e.stdout, script())
			}
		},
	}
}

// usualSpeeds are what most boxes call their speeds; which ones a file has isn't known to the shell.
var usualSpeeds = []string{"1st", "2nd", "3rd", "4th", "5th", "6th", "reverse"}

// flagWords are the words a flag takes, when it takes words.
func flagWords(f *pflag.Flag) []string {
	switch v := f.Value.(type) {
	case *choice:
		return v.words
	case *several:
		return v.words
	}
	if f.Name == "speed" {
		return usualSpeeds
	}
	return nil
}

func (c command) flagSet() *pflag.FlagSet {
	set := pflag.NewFlagSet(c.name, pflag.ContinueOnError)
	set.SetOutput(io.Discard)
	c.flags(set)
	return set
}

func commandNames() (names []string) {
	for _, c := range commands() {
		names = append(names, c.name)
	}
	return append(names, "help")
}

// bash completes words by a case over the command, then over the flag before the cursor.
func bash() string {
	var b strings.Builder
	b.WriteString("# bash completion for layshaft\n_layshaft() {\n")
	b.WriteString("  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]} words=\n")
	fmt.Fprintf(&b, "  if [ \"$COMP_CWORD\" -eq 1 ]; then\n    COMPREPLY=($(compgen -W %q -- \"$word\"))\n    return\n  fi\n", strings.Join(commandNames(), " "))
	b.WriteString("  case \"${COMP_WORDS[1]} $before\" in\n")
	eachFlag(func(c command, f *pflag.Flag) {
		switch words := flagWords(f); {
		case words != nil:
			fmt.Fprintf(&b, "    %q) COMPREPLY=($(compgen -W %q -- \"$word\")); return ;;\n", c.name+" --"+f.Name, strings.Join(words, " "))
		case f.Value.Type() == "file":
			fmt.Fprintf(&b, "    %q) COMPREPLY=($(compgen -f -- \"$word\")); return ;;\n", c.name+" --"+f.Name)
		}
	})
	b.WriteString("  esac\n  case \"${COMP_WORDS[1]}\" in\n")
	for _, c := range commands() {
		words := append([]string{}, c.words...)
		c.flagSet().VisitAll(func(f *pflag.Flag) { words = append(words, "--"+f.Name) })
		fmt.Fprintf(&b, "    %s) words=%q ;;\n", c.name, strings.Join(append(words, "--help"), " "))
	}
	b.WriteString("  esac\n  COMPREPLY=($(compgen -W \"$words\" -- \"$word\"))\n")
	b.WriteString("  case \"$word\" in -*) ;; *) COMPREPLY+=($(compgen -f -- \"$word\")) ;; esac\n")
	b.WriteString("}\ncomplete -o filenames -F _layshaft layshaft\n")
	return b.String()
}

// zsh runs the bash script through its own compatibility layer, so that there is one set of rules.
func zsh() string {
	return "# zsh completion for layshaft\nautoload -U +X compinit && compinit\nautoload -U +X bashcompinit && bashcompinit\n" + bash()
}

func fish() string {
	var b strings.Builder
	b.WriteString("# fish completion for layshaft\ncomplete -c layshaft -f\n")
	for _, c := range commands() {
		fmt.Fprintf(&b, "complete -c layshaft -n __fish_use_subcommand -a %s -d %s\n", c.name, single(c.short))
		seen := "-n " + single("__fish_seen_subcommand_from "+c.name)
		if c.files {
			fmt.Fprintf(&b, "complete -c layshaft %s -F\n", seen)
		}
		if len(c.words) > 0 {
			fmt.Fprintf(&b, "complete -c layshaft %s -a %s\n", seen, single(strings.Join(c.words, " ")))
		}
	}
	eachFlag(func(c command, f *pflag.Flag) {
		_, usage := pflag.UnquoteUsage(f)
		line := fmt.Sprintf("complete -c layshaft -n %s -l %s -d %s", single("__fish_seen_subcommand_from "+c.name), f.Name, single(usage))
		switch words := flagWords(f); {
		case words != nil:
			line += " -x -a " + single(strings.Join(words, " "))
		case f.Value.Type() == "file":
			line += " -r -F"
		case f.Value.Type() != "bool":
			line += " -x"
		}
		b.WriteString(line + "\n")
	})
	return b.String()
}

func eachFlag(do func(command, *pflag.Flag)) {
	for _, c := range commands() {
		c.flagSet().VisitAll(func(f *pflag.Flag) { do(c, f) })
	}
}

// single quotes a word for fish.
func single(s string) string {
	return "'" + strings.NewReplacer(`\`, `\\`, `'`, `\'`).Replace(s) + "'"
}
