package colony

// nearest returns the word within an edit distance of a third of the name's length, at least 1, or "". Of equally near
// words the first wins.
func nearest(name string, words []string) string {
	best, least := "", max(1, len([]rune(name))/3)+1
	for _, word := range words {
		if d := distance([]rune(name), []rune(word)); d < least {
			best, least = word, d
		}
	}
	return best
}

// distance returns the number of insertions, deletions, substitutions and swaps of neighbours that turn a into b, with
// no place edited twice (optimal string alignment).
func distance(a, b []rune) int {
	rows := make([][]int, len(a)+1)
	for i := range rows {
		rows[i] = make([]int, len(b)+1)
		rows[i][0] = i
	}
	for j := range rows[0] {
		rows[0][j] = j
	}
	for i := 1; i <= len(a); i++ {
		for j := 1; j <= len(b); j++ {
			change := 0
			if a[i-1] != b[j-1] {
				change = 1
			}
			rows[i][j] = min(rows[i-1][j-1]+change, rows[i-1][j]+1, rows[i][j-1]+1)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				rows[i][j] = min(rows[i][j], rows[i-2][j-2]+1)
			}
		}
	}
	return rows[len(a)][len(b)]
}
