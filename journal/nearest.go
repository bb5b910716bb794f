package journal

import "strings"

// Nearest returns the known word that the writer of word most likely meant, or "" when none is close. It looks at
// letter case first, then at a word begun but not finished, then at the number of slips (a letter left out, added,
// replaced, or two swapped: the optimal string alignment distance). Among equals the first in the list wins.
func Nearest(word string, known []string) string {
	if all := equallyNear(word, known); len(all) > 0 {
		return all[0]
	}
	return ""
}

// equallyNear returns the words that Nearest chooses from, in the order of the list.
func equallyNear(word string, known []string) []string {
	typed := []rune(fold(word))
	if len(typed) == 0 || len(typed) > 2*maxNameLength {
		return nil
	}
	var best []string
	bestSlips := len(typed) - 1
	for _, candidate := range known {
		want := []rune(fold(candidate))
		allowed := max(len(typed), len(want)) / 3
		if len(want) <= 3 || len(typed) <= 3 {
			allowed = 1
		}
		got := slips(typed, want)
		if got > min(allowed, bestSlips) {
			continue
		}
		if got < bestSlips {
			best, bestSlips = nil, got
		}
		best = append(best, candidate)
	}
	if best == nil {
		return onlyBeginning(string(typed), known)
	}
	return best
}

// onlyBeginning returns the one known word that begins with typed, or none when several do.
func onlyBeginning(typed string, known []string) []string {
	var found []string
	for _, candidate := range known {
		if len(typed) >= 3 && strings.HasPrefix(fold(candidate), typed) {
			found = append(found, candidate)
		}
	}
	if len(found) > 1 {
		return nil
	}
	return found
}

// fold takes away what people do not see as a difference between two words.
func fold(word string) string {
	return strings.NewReplacer("_", "-", " ", "-").Replace(strings.ToLower(strings.TrimSpace(word)))
}

// slips is the optimal string alignment distance of two words.
func slips(a, b []rune) int {
	before, last, this := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		this[0] = i
		for j := 1; j <= len(b); j++ {
			this[j] = min(last[j]+1, this[j-1]+1, last[j-1]+differ(a[i-1], b[j-1]))
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				this[j] = min(this[j], before[j-2]+1)
			}
		}
		before, last, this = last, this, before
	}
	return last[len(b)]
}

func differ(a, b rune) int {
	if a == b {
		return 0
	}
	return 1
}
