package main

import (
	"errors"
	"fmt"
	"strings"
	"unicode"

	"github.com/spf13/pflag"

	"layshaft/gearbox/diag"
	"layshaft/gearbox/quantity"
)

// once sets the flags of a command line and refuses one that is given twice, of which only the last would count.
func once(set *pflag.FlagSet) func(f *pflag.Flag, value string) error {
	given := map[string]string{}
	return func(f *pflag.Flag, value string) error {
		_, several := f.Value.(*several)
		if r, ok := f.Value.(*readingFlag); ok {
			several = r.many
		}
		if before, twice := given[f.Name]; twice && !several && f.Value.Type() != "stringArray" {
			return twiceError{f.Name, before, value}
		}
		given[f.Name] = value
		return set.Set(f.Name, value)
	}
}

// twiceError is a flag that was given twice where once is meant.
type twiceError struct{ flag, first, second string }

func (e twiceError) Error() string {
	if e.first == e.second {
		return fmt.Sprintf("--%s is given twice; once is enough", e.flag)
	}
	return fmt.Sprintf("--%s is given twice, as %s and as %s; keep one of them", e.flag, shown(e.first), shown(e.second))
}

// otherWords are flags by words that people try for them: what they meant.
var otherWords = map[string]string{
	"json": "--format json", "csv": "--format csv", "text": "--format text",
	"us": "--units us", "imperial": "--units us", "metric": "--units metric",
	"output": "--html or --format", "out": "--html or --format", "page": "--html", "gear": "--speed",
}

// mistake turns an error of the flag parser into one that says what to type instead.
func (c command) mistake(err error, set *pflag.FlagSet, args []string) error {
	u := usageError{command: c.name + " ", message: err.Error()}
	if missing, ok := errors.AsType[*pflag.NotExistError](err); ok {
		// A whole word behind a single dash is read as a row of letters.
		typed := missing.GetSpecifiedName()
		if letters := missing.GetSpecifiedShortnames(); letters != "" {
			typed = letters
			u.message = "unknown flag: -" + typed
		}
		u.hint = meant(typed, set)
	}
	if invalid, ok := errors.AsType[*pflag.InvalidValueError](err); ok {
		flag, value := "--"+invalid.GetFlag().Name, invalid.GetValue()
		u.message = fmt.Sprintf("%s %s: %v", flag, shown(value), errors.Unwrap(err))
		if _, isTorque := invalid.GetFlag().Value.(*torqueFlag); isTorque {
			u.hint = unquoted(flag, value, args)
		}
	}
	return u
}

// meant is what to type instead of a flag that there isn't: the nearest, or else all.
func meant(typed string, set *pflag.FlagSet) string {
	word, _, _ := strings.Cut(typed, "=")
	var names []string
	set.VisitAll(func(f *pflag.Flag) { names = append(names, f.Name) })
	if near, ok := diag.Nearest(word, names); ok {
		return "Did you mean --" + near + "?"
	}
	if other := otherWords[strings.ToLower(word)]; other != "" {
		if first, _, _ := strings.Cut(strings.TrimPrefix(other, "--"), " "); set.Lookup(first) != nil {
			return "Did you mean " + other + "?"
		}
	}
	if len(names) == 0 {
		return "It has no flags."
	}
	return "Its flags are --" + strings.Join(names, ", --") + "."
}

// shown is a value as it is typed: in quotes when it needs them.
func shown(value string) string {
	if value == "" || strings.ContainsAny(value, " \t\n\"'*?$") || strings.ContainsFunc(value, func(r rune) bool { return !unicode.IsPrint(r) }) {
		return fmt.Sprintf("%q", value)
	}
	return value
}

// unquoted tells to quote a torque whose unit the shell took for a word of its own; "" when that isn't what went wrong.
func unquoted(flag, value string, args []string) string {
	for i, a := range args {
		if next := i + 1; next < len(args) && (a == value && i > 0 && args[i-1] == flag || a == flag+"="+value) {
			if _, err := quantity.Parse(value+" "+args[next], quantity.Torque); err == nil {
				return fmt.Sprintf("Quote it: %s \"%s %s\"", flag, value, args[next])
			}
		}
	}
	return ""
}
