package standards

// lookAlikes are groups of characters that are taken for one another when stamped,
// painted over or worn (common practice).
var lookAlikes = []string{"0ODQ", "1ILJ7T", "5S", "8B3", "2Z", "6G", "4A", "UV", "NM", "EF", "PR", "CG", "XK"}

// groupsOf gives the groups a character is in, a bit each.
var groupsOf = func() (groups [128]uint16) {
	for i, group := range lookAlikes {
		for _, r := range group {
			groups[r] |= 1 << i
		}
	}
	return groups
}()

// LookAlike reports whether two capitals or figures are easily taken for each other.
func LookAlike(a, b rune) bool {
	return a != b && a > 0 && b > 0 && a < 128 && b < 128 && groupsOf[a]&groupsOf[b] != 0
}
