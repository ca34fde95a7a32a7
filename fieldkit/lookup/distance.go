package lookup

import (
	"fmt"
	"math/bits"
	"strings"
)

// What a difference between a typed number and a kept one costs. A look-alike is a
// quarter of a wrong character: stamps and screens are misread that way all the time.
const (
	costLookAlike = 1
	costWrong     = 4 // a wrong, missing, extra or swapped character
)

// lookAlike maps characters that are taken for each other to one of them:
// O/0, I/1/L, S/5, B/8, Z/2, G/6.
var lookAlike = [128]byte{'o': '0', 'i': '1', 'l': '1', 's': '5', 'b': '8', 'z': '2', 'g': '6'}

func skeletonOf(r rune) rune {
	if r < 128 && lookAlike[r] != 0 {
		return rune(lookAlike[r])
	}
	return r
}

// skeleton folds look-alikes together: numbers with one skeleton differ only by
// misreading.
func skeleton(s string) string { return strings.Map(skeletonOf, s) }

// characters is the set of characters of a text, many to a bit beyond the first 36.
type characters uint64

func charactersOf(s string) (set characters) {
	for _, r := range s {
		switch {
		case r == '?' || r == '*':
		case r >= 'a' && r <= 'z':
			set |= 1 << (r - 'a')
		case r >= '0' && r <= '9':
			set |= 1 << (26 + r - '0')
		default:
			set |= 1 << (36 + uint(r)%28)
		}
	}
	return set
}

// missing counts the characters of the set that other does not have.
func (set characters) missing(other characters) int { return bits.OnesCount64(uint64(set &^ other)) }

// distance gives the cheapest way to read typed as kept, where "?" in typed stands
// for any one character. It gives more than limit as soon as that is certain. It is
// asked for thousands of numbers at each letter typed, so it keeps only three rows of
// the table and makes no garbage.
func distance(typed, kept []rune, limit int) int {
	if len(kept) >= maxCompared {
		return limit + 1
	}
	gap := len(typed) - len(kept)
	if max(gap, -gap)*costWrong > limit {
		return limit + 1
	}
	reach := limit / costWrong // no way within the limit strays farther from the diagonal
	var rows [3][maxCompared]int32
	for j := range len(kept) + 1 {
		rows[0][j] = int32(j * costWrong)
	}
	for i := 1; i <= len(typed); i++ {
		from, to := max(1, i-reach), min(len(kept), i+reach)
		if fillRow(rows[i%3][:], rows[(i+2)%3][:], rows[(i+1)%3][:], typed, kept, i, from, to) > int32(limit) {
			return limit + 1
		}
	}
	return int(rows[len(typed)%3][len(kept)])
}

// maxCompared is more than any number or word compared is long.
const maxCompared = 64

// fillRow computes places from to to of row i of the table from the two rows above it,
// and gives its least cost; no later row has less. The places beside them cost too
// much.
func fillRow(row, above, beyond []int32, typed, kept []rune, i, from, to int) int32 {
	const tooMuch = 1 << 20
	row[from-1] = tooMuch
	if from == 1 {
		row[0] = int32(i * costWrong)
	}
	least := row[from-1]
	for j := from; j <= to; j++ {
		cost := above[j-1] + mismatch(typed[i-1], kept[j-1])
		cost = min(cost, above[j]+costWrong, row[j-1]+costWrong)
		if swapped(typed, kept, i, j) {
			cost = min(cost, beyond[j-2]+costWrong)
		}
		row[j] = cost
		least = min(least, cost)
	}
	if to < len(kept) {
		row[to+1] = tooMuch
	}
	return least
}

// table gives the whole table of costs between the beginnings of typed and kept.
func table(typed, kept []rune) [][]int32 {
	rows := make([][]int32, len(typed)+1)
	for i := range rows {
		rows[i] = make([]int32, len(kept)+1)
		for j := range rows[i] {
			rows[i][j] = int32(j * costWrong)
		}
		if i > 0 {
			fillRow(rows[i], rows[i-1], rows[max(i-2, 0)], typed, kept, i, 1, len(kept))
		}
	}
	return rows
}

func mismatch(typed, kept rune) int32 {
	switch {
	case typed == kept || typed == '?':
		return 0
	case skeletonOf(typed) == skeletonOf(kept):
		return costLookAlike
	}
	return costWrong
}

func swapped(typed, kept []rune, i, j int) bool {
	return i > 1 && j > 1 && typed[i-1] == kept[j-2] && typed[i-2] == kept[j-1] && typed[i-1] != typed[i-2]
}

// readings tells in words how typed was read as kept: "O read as 0", "? read as 4".
func readings(typed, kept string) []string {
	a, b := []rune(typed), []rune(kept)
	rows := table(a, b)
	var words []string
	say := func(format string, args ...any) { words = append(words, fmt.Sprintf(format, args...)) }
	i, j := len(a), len(b)
	for i > 0 || j > 0 {
		here := rows[i][j]
		switch {
		case i > 0 && j > 0 && here == rows[i-1][j-1]+mismatch(a[i-1], b[j-1]):
			if a[i-1] != b[j-1] {
				say("%s read as %s", upper(a[i-1]), upper(b[j-1]))
			}
			i, j = i-1, j-1
		case swapped(a, b, i, j) && here == rows[i-2][j-2]+costWrong:
			say("%s%s read as %s%s", upper(a[i-2]), upper(a[i-1]), upper(b[j-2]), upper(b[j-1]))
			i, j = i-2, j-2
		case j > 0 && here == rows[i][j-1]+costWrong:
			say("%s missing", upper(b[j-1]))
			j--
		default:
			say("%s too many", upper(a[i-1]))
			i--
		}
	}
	for l, r := 0, len(words)-1; l < r; l, r = l+1, r-1 {
		words[l], words[r] = words[r], words[l]
	}
	return words
}

func upper(r rune) string { return strings.ToUpper(string(r)) }

// matchesPattern reports whether all of kept fits a pattern, where "?" is one
// character and "*" any number of them.
func matchesPattern(pattern, kept string) bool {
	p, k := []rune(pattern), []rune(kept)
	star, resume := -1, 0
	i := 0
	for j := 0; j < len(k); {
		switch {
		case i < len(p) && p[i] == '*':
			star, resume = i, j
			i++
		case i < len(p) && (p[i] == '?' || p[i] == k[j]):
			i, j = i+1, j+1
		case star >= 0:
			resume++
			i, j = star+1, resume
		default:
			return false
		}
	}
	for i < len(p) && p[i] == '*' {
		i++
	}
	return i == len(p)
}
