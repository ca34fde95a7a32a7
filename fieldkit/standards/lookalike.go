package standards

import "strings"

// lookAlikes are groups of characters that are taken for one another when stamped,
// painted over or worn (common practice).
var lookAlikes = []string{"0ODQ", "1ILJ7T", "5S", "8B3", "2Z", "6G", "4A", "UV", "NM", "EF", "PR", "CG", "XK"}

// LookAlike reports whether two capitals or figures are easily taken for each other.
func LookAlike(a, b rune) bool {
	if a == b {
		return false
	}
	for _, group := range lookAlikes {
		if strings.ContainsRune(group, a) && strings.ContainsRune(group, b) {
			return true
		}
	}
	return false
}
