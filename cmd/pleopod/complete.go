package main

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/alecthomas/kong"

	"pleopod/journal"
)

type completeCommand struct {
	Shell string `arg:"" enum:"bash,zsh,fish" help:"The shell: bash, zsh or fish."`
}

// shells is the script of each shell. Every one asks the program itself what may follow, so that none can be
// out of date.
var shells = map[string]string{
	"bash": `# pleopod: completion for bash. Put this line into ~/.bashrc:  source <(pleopod complete bash)
_pleopod() {
  local word about
  COMPREPLY=()
  while IFS=$'\t' read -r word about; do
    COMPREPLY+=("$word")
  done < <("${COMP_WORDS[0]}" candidates -- "${COMP_WORDS[@]:1:COMP_CWORD}" 2>/dev/null)
}
complete -o default -F _pleopod pleopod
`,
	"zsh": `#compdef pleopod
# pleopod: completion for zsh. Put this line into ~/.zshrc, below compinit:  source <(pleopod complete zsh)
_pleopod() {
  local word about
  local -a found
  while IFS=$'\t' read -r word about; do
    found+=("${word//:/\\:}:$about")
  done < <("${words[1]}" candidates -- "${(@)words[2,CURRENT]}" 2>/dev/null)
  if (( $#found )); then _describe pleopod found; else _files; fi
}
compdef _pleopod pleopod
`,
	"fish": `# pleopod: completion for fish. Run once:  pleopod complete fish > ~/.config/fish/completions/pleopod.fish
function __pleopod
    set -l typed (commandline -opc) (commandline -ct)
    set -l found ($typed[1] candidates -- $typed[2..-1] 2>/dev/null)
    if test (count $found) -gt 0
        printf '%s\n' $found
    else
        __fish_complete_path (commandline -ct)
    end
end
complete -c pleopod -f -a '(__pleopod)'
`,
}

// Run prints the completion script of a shell.
func (c *completeCommand) Run(env *environment) error {
	fmt.Fprint(env.stdout, shells[c.Shell])
	return nil
}

type candidatesCommand struct {
	Words []string `arg:"" optional:"" passthrough:""`
}

// Run prints what may stand for the last of the words, one a line with what it means behind a tab; nothing
// where the shell knows better, as with files.
func (c *candidatesCommand) Run(env *environment, parser *kong.Kong) error {
	words := c.Words
	if len(words) > 0 && words[0] == "--" {
		words = words[1:]
	}
	if len(words) == 0 {
		words = []string{""}
	}
	last := words[len(words)-1]
	for _, found := range newTyped(parser.Model.Node, words[:len(words)-1]).candidates(last) {
		if strings.HasPrefix(found[0], last) {
			fmt.Fprintf(env.stdout, "%s\t%s\n", found[0], found[1])
		}
	}
	return nil
}

// typed is what stands on the command line so far.
type typed struct {
	node  *kong.Node // the command
	flag  *kong.Flag // whose value comes next, or nil
	free  []string   // words that are neither commands nor flags
	flags []string   // that were given
}

func newTyped(node *kong.Node, words []string) *typed {
	t := &typed{node: node}
	for _, word := range words {
		switch {
		case t.flag != nil:
			t.flag = nil
		case strings.HasPrefix(word, "--"):
			name, _, valued := strings.Cut(word[2:], "=")
			t.flags = append(t.flags, name)
			if flag := t.find(name); flag != nil && !flag.IsBool() && !valued {
				t.flag = flag
			}
		case t.child(word) != nil:
			t.node = t.child(word)
		default:
			t.free = append(t.free, word)
		}
	}
	return t
}

// find returns the flag of that name, or nil.
func (t *typed) find(name string) *kong.Flag {
	for _, group := range t.node.AllFlags(true) {
		for _, flag := range group {
			if flag.Name == name {
				return flag
			}
		}
	}
	return nil
}

// child returns the command of that name below the current one, or nil.
func (t *typed) child(name string) *kong.Node {
	for _, child := range t.node.Children {
		if child.Type == kong.CommandNode && child.Name == name {
			return child
		}
	}
	return nil
}

// candidates lists what may come next, with what it means.
func (t *typed) candidates(last string) (all [][2]string) {
	switch {
	case t.flag != nil && t.flag.Name == "tank":
		return t.tanks()
	case t.flag != nil:
		return words(t.flag.Enum)
	case strings.HasPrefix(last, "-"):
		for _, flag := range slices.Concat(t.node.AllFlags(true)...) {
			if !slices.Contains(t.flags, flag.Name) {
				all = append(all, [2]string{"--" + flag.Name, firstLine(flag.Help)})
			}
		}
		return all
	}
	for _, child := range t.node.Children {
		if child.Type == kong.CommandNode && !child.Hidden {
			all = append(all, [2]string{child.Name, firstLine(child.Help)})
		}
	}
	if len(t.free) < len(t.node.Positional) {
		all = append(all, words(t.node.Positional[len(t.free)].Enum)...)
	}
	return all
}

// words splits the choices of an enumeration.
func words(enum string) (all [][2]string) {
	for word := range strings.SplitSeq(enum, ",") {
		if word != "" {
			all = append(all, [2]string{word, ""})
		}
	}
	return all
}

// tanks lists the tanks of the journal that the command line names, else of the current folder.
func (t *typed) tanks() (all [][2]string) {
	folder := "."
	for i, argument := range t.node.Positional {
		if argument.Name == "journal" && i < len(t.free) {
			folder = t.free[i]
		}
	}
	source, err := os.ReadFile(filepath.Join(folder, journal.SettingsFile))
	if err != nil {
		return nil
	}
	settings, _ := journal.ParseSettings(source)
	if settings == nil {
		return nil
	}
	for _, tank := range settings.Tanks {
		all = append(all, [2]string{tank.ID, printable(firstLine(tank.Name))})
	}
	return all
}

// firstLine returns a text up to its first line end.
func firstLine(text string) string {
	line, _, _ := strings.Cut(text, "\n")
	return line
}
