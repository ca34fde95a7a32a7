package lookup

import (
	"slices"
	"sort"
	"strings"
	"unicode"
)

// How good a number match is, of an exact one.
const (
	unreadable  = 0.90 // "?" and "*" stand for what is not legible
	misread     = 0.86 // only look-alikes differ
	begun       = 0.70 // the number begins so, nearer to whole the more of it is there
	contained   = 0.52 // a piece from its middle or end
	oneWrong    = 0.50 // one wrong character
	twoWrong    = 0.40 // two
	perReading  = 0.01 // off for each look-alike or unreadable character
	partOfWhole = 0.10 // on for a piece that is nearly all of it
)

// From how many characters a typed piece says enough.
const (
	minBegun     = 2
	minLookAlike = 3
	minContained = 3
	minOneWrong  = 4
	minTwoWrong  = 6
	maxNumber    = 40 // longer runs are no number
)

// numberTable is all numbers, folded, each once.
type numberTable struct {
	index map[string]int // before it is sorted
	list  []number
	order []int32 // places in the list, by skeleton, then text, once sorted
	// What is looked at first of every number stands together: by length in runes, as
	// far as that counts.
	ofLength [maxCompared + 1][]glance
	holding  map[piece][]int32 // the places of the numbers that hold a piece
}

// glance is what tells quickly that a number is not meant.
type glance struct {
	profile profile
	at      int32 // place in the list
}

// piece is three characters that follow each other in a skeleton.
type piece [minContained]rune

type number struct {
	text     string // folded
	runes    []rune
	skeleton string
	phrases  []int32
}

func (t *numberTable) add(value string, id int32) {
	text := foldNumber(value)
	if text == "" {
		return
	}
	if t.order != nil {
		n := t.find(text)
		if n == nil {
			n = t.insert(text)
		}
		n.phrases = append(n.phrases, id)
		return
	}
	if t.index == nil {
		t.index = map[string]int{}
	}
	i, ok := t.index[text]
	if !ok {
		i = len(t.list)
		t.index[text] = i
		t.list = append(t.list, numberOf(text))
	}
	t.list[i].phrases = append(t.list[i].phrases, id)
}

func numberOf(text string) number {
	return number{text: text, runes: []rune(text), skeleton: skeleton(text)}
}

func (t *numberTable) sort() {
	t.index = nil
	sort.Slice(t.list, func(i, j int) bool { return t.list[i].before(t.list[j].skeleton, t.list[j].text) })
	t.holding, t.order = map[piece][]int32{}, make([]int32, len(t.list), len(t.list)+1)
	for i := range t.list {
		t.order[i] = int32(i)
		t.glanceAt(int32(i))
	}
}

func (n *number) before(skeleton, text string) bool {
	return n.skeleton < skeleton || n.skeleton == skeleton && n.text < text
}

// glanceAt enters a number of the list where numbers are sought that are like it.
func (t *numberTable) glanceAt(i int32) {
	n := &t.list[i]
	length := min(len(n.runes), maxCompared)
	t.ofLength[length] = append(t.ofLength[length], glance{profileOf(n.skeleton), i})
	eachPiece(n.skeleton, func(p piece) {
		if at := t.holding[p]; len(at) == 0 || at[len(at)-1] != i {
			t.holding[p] = append(at, i)
		}
	})
}

// from gives where in the order a number stands or would.
func (t *numberTable) from(skeleton, text string) int {
	return sort.Search(len(t.order), func(i int) bool { return !t.at(i).before(skeleton, text) })
}

func (t *numberTable) at(i int) *number { return &t.list[t.order[i]] }

// insert adds a number to the sorted table.
func (t *numberTable) insert(text string) *number {
	n := numberOf(text)
	i := int32(len(t.list))
	t.order = slices.Insert(t.order, t.from(n.skeleton, text), i)
	t.list = append(t.list, n)
	t.glanceAt(i)
	return &t.list[i]
}

// find gives a number that is kept just so, nil if there is none.
func (t *numberTable) find(typed string) *number {
	if at := t.from(skeleton(typed), typed); at < len(t.order) && t.at(at).text == typed {
		return t.at(at)
	}
	return nil
}

// eachPiece calls found with the pieces of a skeleton, without those that cannot be
// read.
func eachPiece(skeleton string, found func(p piece)) {
	var p piece
	legible := 0
	for _, r := range skeleton {
		p[0], p[1], p[2] = p[1], p[2], r
		if legible++; r == '?' || r == '*' {
			legible = 0
		}
		if legible >= len(p) {
			found(p)
		}
	}
}

// holders gives the places of the numbers that hold a piece of a skeleton, as few as
// can be told quickly; ok is false if it has no piece to go by.
func (t *numberTable) holders(skeleton string) (places []int32, ok bool) {
	eachPiece(skeleton, func(p piece) {
		if at := t.holding[p]; !ok || len(at) < len(places) {
			places, ok = at, true
		}
	})
	return places, ok
}

// each calls found with every number that typed may mean and how good that is; only
// what may be a stamp is tried as misread.
func (t *numberTable) each(typed string, stamp bool, found func(n *number, quality float64)) {
	q := []rune(typed)
	plain := strings.Trim(typed, "?*")
	switch {
	case len(q) == 0 || len(q) > maxNumber:
	case strings.ContainsAny(typed, "?*") && !stamp:
	case strings.Contains(typed, "*"):
		if plain != "" {
			t.eachPattern(typed, found)
		}
	case plain == "":
		t.eachOfLength(len(q), found)
	case strings.Contains(typed, "?"):
		t.eachNear(typed, q, found)
	default:
		t.eachBegun(typed, len(q), found)
		if stamp {
			t.eachNear(typed, q, found)
		}
	}
}

// eachBegun goes through the numbers that are the typed one or begin with it, give
// or take look-alikes.
func (t *numberTable) eachBegun(typed string, length int, found func(n *number, quality float64)) {
	s, runes := skeleton(typed), []rune(typed)
	digits := strings.IndexFunc(typed, unicode.IsDigit) >= 0
	for at := t.from(s, ""); at < len(t.order) && strings.HasPrefix(t.at(at).skeleton, s); at++ {
		n := t.at(at)
		wrong := differ(runes, n.runes)
		part := float64(length) / float64(len(n.runes))
		switch {
		case n.text == typed:
			found(n, 1)
		case length >= minLookAlike && n.skeleton == s:
			found(n, misread-perReading*float64(wrong))
		case length >= minBegun && wrong == 0:
			found(n, begun+partOfWhole*part)
		case length >= minLookAlike && digits && n.skeleton != s:
			found(n, begun+partOfWhole*part-0.1-perReading*float64(wrong))
		}
	}
}

// differ counts the characters of typed that differ from the beginning of kept.
func differ(typed, kept []rune) (n int) {
	for i := range min(len(typed), len(kept)) {
		if typed[i] != kept[i] {
			n++
		}
	}
	return n
}

// eachNear goes through the numbers with a wrong or unreadable character and those
// that hold the typed piece.
func (t *numberTable) eachNear(typed string, q []rune, found func(n *number, quality float64)) {
	s := skeleton(typed)
	open := strings.Count(typed, "?")
	legible := len(q) - open
	wrong := 0
	if legible >= minOneWrong {
		wrong = 1
	}
	if legible >= minTwoWrong {
		wrong = 2
	}
	if wrong > 0 || open > 0 {
		t.eachAlike(s, q, wrong, open, found)
	}
	if legible < minContained {
		return
	}
	places, ok := t.holders(s)
	if !ok { // no three characters in a row can be read
		t.eachWithAll(s, func(i int32) { t.holds(i, s, q, open, found) })
	}
	for _, i := range places {
		t.holds(i, s, q, open, found)
	}
}

// eachWithAll goes through the numbers that have all characters of a skeleton, and
// some that only seem to.
func (t *numberTable) eachWithAll(skeleton string, found func(i int32)) {
	mine := profileOf(skeleton)
	for _, list := range t.ofLength {
		for _, g := range list {
			if mine.beyond(g.profile) == 0 {
				found(g.at)
			}
		}
	}
}

// eachAlike goes through the numbers of about the same length that differ in no more
// than the wrong characters and those that cannot be read.
func (t *numberTable) eachAlike(s string, q []rune, wrong, open int, found func(n *number, quality float64)) {
	mine := profileOf(s)
	limit := max(wrong*costWrong, costWrong-1)
	for length := max(len(q)-wrong, 0); length <= min(len(q)+wrong, maxCompared); length++ {
		for _, g := range t.ofLength[length] {
			if mine.beyond(g.profile) > wrong || g.profile.beyond(mine) > wrong+open {
				continue
			}
			n := &t.list[g.at]
			if open == 0 && n.skeleton == s {
				continue // found as begun
			}
			if cost := distance(q, n.runes, limit); cost <= limit {
				found(n, nearness(cost, open))
			}
		}
	}
}

// holds looks whether a longer number has the typed piece in it.
func (t *numberTable) holds(i int32, s string, q []rune, open int, found func(n *number, quality float64)) {
	n := &t.list[i]
	if len(n.runes) <= len(q) {
		return
	}
	part := partOfWhole * float64(len(q)) / float64(len(n.runes))
	switch where := find(s, n.skeleton, open > 0); {
	case where > 0:
		found(n, contained+part)
	case where == 0 && open > 0:
		found(n, begun+part-perReading*float64(open))
	}
}

func nearness(cost, open int) float64 {
	readings := perReading * float64(cost%costWrong+open)
	switch {
	case cost < costWrong && open > 0:
		return unreadable - readings
	case cost < costWrong:
		return misread - readings
	case cost < 2*costWrong:
		return oneWrong - readings
	}
	return twoWrong - readings
}

// find says where a piece is in a number, -1 if it is not; open pieces hold "?".
func find(piece, whole string, open bool) int {
	if !open {
		return strings.Index(whole, piece)
	}
	p, w := []rune(piece), []rune(whole)
	for at := 0; at+len(p) <= len(w); at++ {
		fits := true
		for i := 0; i < len(p) && fits; i++ {
			fits = p[i] == '?' || p[i] == w[at+i]
		}
		if fits {
			return at
		}
	}
	return -1
}

// eachPattern goes through the numbers that fit a pattern with "*", or hold it.
func (t *numberTable) eachPattern(pattern string, found func(n *number, quality float64)) {
	s := skeleton(pattern)
	legible := len([]rune(s)) - strings.Count(s, "?") - strings.Count(s, "*")
	try := func(i int32) {
		n := &t.list[i]
		switch {
		case matchesPattern(s, n.skeleton):
			found(n, unreadable-perReading*float64(min(len(n.runes)-legible, 20)))
		case legible >= minContained && matchesPattern("*"+s+"*", n.skeleton):
			found(n, contained)
		}
	}
	if places, ok := t.holders(s); ok {
		for _, i := range places {
			try(i)
		}
		return
	}
	t.eachWithAll(s, try)
}

// eachOfLength goes through the numbers of a length: all that is known when no
// character can be read.
func (t *numberTable) eachOfLength(length int, found func(n *number, quality float64)) {
	for _, g := range t.ofLength[min(length, maxCompared)] {
		found(&t.list[g.at], contained)
	}
}
