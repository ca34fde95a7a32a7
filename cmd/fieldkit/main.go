// Command fieldkit serves Trail Field Kit to a browser, writes it as a static
// site, and works on kit files at the desk.
//
//	fieldkit                     serve the program on this computer
//	fieldkit help                list the commands
//	fieldkit help COMMAND        what one does, with examples
//
// Every command ends with status 0 when it did its work, 1 when it found nothing
// or something is not valid, and 2 when it was asked wrongly.
package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"strings"
	"syscall"
)

// Exit statuses of every command.
const (
	done       = 0
	notDone    = 1 // found nothing, or not valid
	askedWrong = 2
)

// command is one word after fieldkit. help is shown by "fieldkit help NAME": how to
// write it, what it does, examples.
type command struct {
	name    string
	summary string // one line, for the list
	help    string
	run     func(ctx context.Context, args []string, stdout, stderr io.Writer) int
}

// commands are listed in this order. Without a word the first one runs.
var commands = []command{
	{"serve", "serve the program to a browser on this computer", serveHelp, serve},
	{"site", "write the program as a static site", siteHelp, writeSite},
	{"find", "find a part by name, number, donor or measurement", findHelp, findCommand},
	{"measure", "tell a standard part by what was measured on it", measureHelp, measureCommand},
	{"torque", "say how tight a bolt is to be", torqueHelp, torqueCommand},
	{"fit", "say whether the part in hand fits at a position", fitHelp, fitCommand},
	{"table", "list the published tables, or print one", tableHelp, tableCommand},
	{"check", "list what is wrong with a kit file", checkHelp, checkCommand},
	{"pack", "plan what to carry on a trip", packHelp, packCommand},
	{"cause", "find the cause of a symptom by at most six questions", causeHelp, causeCommand},
	{"likelihood", "say how likely a position is to fail on a trip", likelihoodHelp, likelihoodCommand},
	{"log", "say what the log says of failures, lives and spares", logHelp, logCommand},
	{"due", "list what is due, or write it as a calendar", dueHelp, dueCommand},
	{"report", "write the report of a trip to print", reportHelp, reportCommand},
}

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	status := run(ctx, os.Args[1:], os.Stdout, os.Stderr)
	stop()
	os.Exit(status)
}

// run does what the words ask for and returns the exit status.
func run(ctx context.Context, args []string, stdout, stderr io.Writer) int {
	if len(args) == 0 || isFlag(args[0]) && !isHelp(args[0]) {
		return commands[0].run(ctx, args, stdout, stderr)
	}
	if isHelp(args[0]) {
		return help(args[1:], stdout, stderr)
	}
	c, known := find(args[0])
	if !known {
		fmt.Fprintf(stderr, "fieldkit: no command %q; run fieldkit help to see them\n", args[0])
		return askedWrong
	}
	if len(args) > 1 && isHelp(args[1]) && isFlag(args[1]) {
		return help(args[:1], stdout, stderr)
	}
	return c.run(ctx, args[1:], stdout, stderr)
}

func isFlag(word string) bool { return strings.HasPrefix(word, "-") }

func isHelp(word string) bool {
	return word == "help" || word == "-h" || word == "-help" || word == "--help"
}

func find(name string) (command, bool) {
	for _, c := range commands {
		if c.name == name {
			return c, true
		}
	}
	return command{}, false
}

func help(words []string, stdout, stderr io.Writer) int {
	if len(words) == 0 {
		fmt.Fprint(stdout, "Trail Field Kit: parts, spares and repairs of a rig built from several donors.\n\nCommands:\n")
		for _, c := range commands {
			fmt.Fprintf(stdout, "  %-10s %s\n", c.name, c.summary)
		}
		fmt.Fprintf(stdout, "\nWithout a command: %s. Run fieldkit help COMMAND for its options and examples.\n", commands[0].name)
		return done
	}
	c, known := find(words[0])
	if !known {
		fmt.Fprintf(stderr, "fieldkit: no command %q; run fieldkit help to see them\n", words[0])
		return askedWrong
	}
	fmt.Fprintln(stdout, strings.TrimSpace(c.help))
	return done
}

// options makes an empty set of options for a command; parse reports what is wrong
// in one line and points at the help.
func options(name string) *flag.FlagSet {
	set := flag.NewFlagSet(name, flag.ContinueOnError)
	set.SetOutput(io.Discard)
	return set
}

// parse reads the options and checks how many words are left. It says what is wrong
// itself; false means that the command ends with askedWrong.
func parse(set *flag.FlagSet, args []string, words int, stderr io.Writer) bool {
	err := set.Parse(args)
	if err == nil && words >= 0 && set.NArg() != words {
		err = fmt.Errorf("%d words instead of %d", set.NArg(), words)
		if set.NArg() > words {
			err = fmt.Errorf("%q is one word too many", set.Arg(words))
		}
	}
	if err == nil {
		return true
	}
	if errors.Is(err, flag.ErrHelp) {
		err = errors.New("asked for help")
	}
	fmt.Fprintf(stderr, "fieldkit %s: %v; run fieldkit help %s\n", set.Name(), err, set.Name())
	return false
}

// complain prints an error as the one line a person reads.
func complain(stderr io.Writer, name string, err error) int {
	fmt.Fprintf(stderr, "fieldkit %s: %v\n", name, err)
	return notDone
}
