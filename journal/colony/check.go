package colony

import (
	"fmt"
	"strings"

	"pleopod/journal"
)

// fault adds an error, with a hint where there is one.
func (r *replay) fault(at journal.Position, code, message string, hint ...string) {
	r.report(journal.Problem{Position: at, Severity: journal.Error, Code: code, Message: message, Hint: strings.Join(hint, "")})
}

// warn adds a warning, with a hint where there is one.
func (r *replay) warn(at journal.Position, code, message string, hint ...string) {
	r.report(journal.Problem{Position: at, Severity: journal.Warning, Code: code, Message: message, Hint: strings.Join(hint, "")})
}

// report adds a problem.
func (r *replay) report(p journal.Problem) { r.colony.Problems = append(r.colony.Problems, p) }

// checkTanks warns about tanks that are never used, and about entries from before a tank was set up.
func (r *replay) checkTanks() {
	used := map[string]bool{}
	for _, entry := range r.colony.Entries {
		for _, id := range entry.Tanks {
			used[id] = true
		}
		r.checkSince(entry)
	}
	for _, tank := range r.colony.Tanks {
		if used[tank.ID] || len(tank.Events) > 0 || len(tank.Logged) > 0 || tank.Since > r.colony.AsOf {
			continue
		}
		// A journal without any entry has just been started.
		if len(r.colony.Entries) > 0 {
			r.report(journal.Problem{
				Position: tank.Position, Severity: journal.Warning, Code: "tank-unused",
				Message: fmt.Sprintf("no entry is about the tank %q", tank.ID),
			})
		}
	}
}

// checkSince warns once for each tank that an entry puts before its start.
func (r *replay) checkSince(entry *journal.Entry) {
	warned := map[string]bool{}
	warn := func(at journal.Position, id string, day journal.Day) {
		tank := r.tanks[id]
		if tank == nil || day >= tank.Since || warned[id] {
			return
		}
		warned[id] = true
		r.report(journal.Problem{
			Position: at, Severity: journal.Warning, Code: "before-since",
			Message: fmt.Sprintf("%s is before %s was set up: journal.yaml says since %s", day, id, tank.Since),
		})
	}
	for _, id := range entry.Tanks {
		warn(entry.At("date"), id, entry.Date)
	}
	for _, e := range entry.Events {
		warn(e.At("date"), e.Tank, e.Day)
	}
}

// quoted writes names for a message.
func quoted(names []string) string { return `"` + strings.Join(names, `", "`) + `"` }
