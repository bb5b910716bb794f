package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"regexp"
	"runtime/debug"
	"slices"
	"strings"
	"syscall"
	"time"

	"github.com/alecthomas/kong"

	"pleopod/journal"
)

// The exit codes.
const (
	exitDone = iota
	exitMistakes
	exitMisuse
)

// errMistakes says that the problems have been printed already.
var errMistakes = errors.New("there are mistakes")

// misuse is an error in how the command was called, not in the journal or the run.
type misuse struct{ error }

func main() {
	tuneCollector()
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	code := run(ctx, os.Args[1:], realEnvironment())
	stop()
	os.Exit(code)
}

// environment is everything outside the program that a command may touch.
type environment struct {
	stdout, stderr io.Writer
	getenv         func(string) string
	now            func() time.Time
	terminal       bool        // stderr is a terminal and colour is wanted
	cache          cacheFolder // what may be kept between runs
}

func realEnvironment() *environment {
	info, err := os.Stderr.Stat()
	terminal := err == nil && info.Mode()&os.ModeCharDevice != 0 && os.Getenv("NO_COLOR") == "" && os.Getenv("TERM") != "dumb"
	return &environment{stdout: os.Stdout, stderr: os.Stderr, getenv: os.Getenv, now: time.Now, terminal: terminal,
		cache: userCache()}
}

// commands is the command line.
type commands struct {
	Publish    publishCommand    `cmd:"" help:"Write the site.\n\nExample: pleopod publish my-colony"`
	Watch      watchCommand      `cmd:"" help:"Show the site on this machine and make it again at every save.\n\nExample: pleopod watch my-colony"`
	Check      checkCommand      `cmd:"" help:"Report every problem of the journal; write nothing.\n\nExample: pleopod check my-colony --private"`
	Forecast   forecastCommand   `cmd:"" help:"Print what is due and how sure it is.\n\nExample: pleopod forecast my-colony --tank north-shelf"`
	Plan       planCommand       `cmd:"" help:"Print what would become of a new colony, or compare several.\n\nExample: pleopod plan --founders 10 --temperature 22C --volume 40L --goal 200"`
	Start      startCommand      `cmd:"" help:"Make a new journal that publishes at once.\n\nExample: pleopod start my-colony"`
	Entry      entryCommand      `cmd:"" help:"Write a new entry with what is likely today as comments.\n\nExample: pleopod entry my-colony --tank north-shelf --edit"`
	Water      waterCommand      `cmd:"" help:"What-if sums about water: a change, a target, a mixture, harder water, topping up, ammonia."`
	Gather     gatherCommand     `cmd:"" help:"Turn a logger file or a spreadsheet into entries and readings.\n\nExample: pleopod gather water-tests.csv my-colony --tank north-shelf --write"`
	Schema     schemaCommand     `cmd:"" help:"Print a JSON Schema for editors that complete and check while you type.\n\nExample: pleopod schema journal"`
	Manual     manualCommand     `cmd:"" help:"Print the manual of the format, or what it says about a word.\n\nExample: pleopod manual berried"`
	Complete   completeCommand   `cmd:"" help:"Print the completion script of a shell.\n\nExample: pleopod complete bash"`
	Candidates candidatesCommand `cmd:"" hidden:""`
	Version    kong.VersionFlag  `help:"Print the version."`
}

// exited carries the exit code out of the parser, which ends the program after --help and --version.
type exited int

// newParser makes the parser of the command line.
func newParser(ctx context.Context, env *environment) *kong.Kong {
	var cli commands
	parser, err := kong.New(&cli,
		kong.Name("pleopod"),
		kong.Description("A colony diary with dates you can trust, from your own notes about dwarf shrimp."),
		kong.Vars{"version": version()},
		kong.Writers(env.stdout, env.stderr),
		kong.Exit(func(code int) { panic(exited(code)) }),
		kong.BindTo(ctx, (*context.Context)(nil)),
	)
	if err != nil {
		panic("pleopod: " + err.Error()) // the struct above is wrong
	}
	parser.Model.HelpFlag.Help = "Show what a command does, with an example."
	return parser
}

// run is the whole program.
func run(ctx context.Context, args []string, env *environment) (code int) {
	defer func() {
		switch e := recover().(type) {
		case nil:
		case exited:
			code = int(e)
		default:
			panic(e) // a fault of the program must be seen
		}
	}()
	parser := newParser(ctx, env)
	switch {
	case len(args) == 0:
		args = []string{"--help"}
	case args[0] == "help": // help COMMAND is COMMAND --help
		args = append(args[1:], "--help")
	}
	command, err := parser.Parse(args)
	if err != nil {
		wrong, context := misparsed(err)
		return env.fail(wrong, commandOf(context))
	}
	return env.fail(command.Run(env, parser), commandOf(command))
}

// misparsed is a command line that was not understood: what to do about it, and the command whose help has more.
func misparsed(err error) (misuse, *kong.Context) {
	var parse *kong.ParseError
	if !errors.As(err, &parse) {
		return misuse{err}, nil
	}
	return misuse{errors.New(inWords(err.Error(), commandOf(parse.Context)))}, parse.Context
}

// What the parser says, in its own words.
var (
	notANumber = regexp.MustCompile(`^(--[a-z-]+): expected (?:an? )?(?:int value|valid \d+ bit \w+) but got ("[^"]*").*$`)
	notThere   = regexp.MustCompile(`^expected "(<[^"]*>[^"]*)".*$`)
	guessed    = regexp.MustCompile(`^(.* -*(\S+)), did you mean (?:one of )?(.*)\?$`)
	notOneOf   = regexp.MustCompile(`^(\S+) must be one of (\S+?)(?:,"")? but got (".*")$`)
)

// inWords says in a keeper's words what the parser of the command line says.
func inWords(said, command string) string {
	said = notANumber.ReplaceAllString(said, "$1 is $2; it takes a whole number")
	said = notThere.ReplaceAllString(said, "$1 is missing")
	if m := notOneOf.FindStringSubmatch(said); m != nil {
		said = m[1] + " is " + m[3] + "; it takes " + strings.ReplaceAll(m[2], ",", ", ")
	}
	if m := guessed.FindStringSubmatch(said); m != nil {
		said = m[1] + nearOnes(m[2], m[3])
	}
	unexpected := strings.HasPrefix(said, "unexpected argument") && !strings.Contains(said, "did you mean")
	switch {
	case unexpected && strings.HasPrefix(command, "pleopod water "):
		return said + "; words that belong together are put in quotes, such as 'gh 8'"
	case unexpected && command == "pleopod plan":
		return said + "; several numbers take commas and no spaces, such as 6,10,20"
	}
	return said
}

// nearOnes keeps of the parser's guesses what is near to the typed word.
func nearOnes(typed, guesses string) string {
	near := slices.DeleteFunc(strings.Split(guesses, ", "), func(guess string) bool {
		return journal.Nearest(typed, []string{strings.Trim(guess, `"-`)}) == ""
	})
	if len(near) == 0 {
		return ""
	}
	return ", did you mean " + strings.Join(near, " or ") + "?"
}

// commandOf returns the command that was called, as it is typed.
func commandOf(context *kong.Context) string {
	if context == nil || context.Selected() == nil {
		return "pleopod"
	}
	return context.Selected().FullPath()
}

// fail prints what ended a command, unless it was printed before, and where its help is, and returns the exit code.
func (env *environment) fail(err error, command string) int {
	if err == nil {
		return exitDone
	}
	if errors.Is(err, errMistakes) {
		return exitMistakes
	}
	fmt.Fprintf(env.stderr, "pleopod: %s\n", printable(strings.TrimSuffix(err.Error(), "\n")))
	var wrong misuse
	if errors.As(err, &wrong) {
		fmt.Fprintf(env.stderr, "for help: %s --help\n", command)
		return exitMisuse
	}
	return exitMistakes
}

// version is what the build says of itself.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok || info.Main.Version == "" {
		return "pleopod (unknown version)"
	}
	text := "pleopod " + info.Main.Version
	for _, setting := range info.Settings {
		if setting.Key == "vcs.revision" {
			text += ", revision " + setting.Value
		}
	}
	return text
}
