package lookup

import (
	"slices"
	"sort"
	"strings"

	"trailfieldkit/fieldkit/order"
)

// How good a word match is, of a whole word.
const (
	beginning  = 0.85 // the word begins so; nearer to whole the more of it is there
	guessed    = 0.5  // one wrong character
	guessedTwo = 0.4  // two
	// Words of this many letters may have one or two wrong characters.
	oneWrongWord = 4
	twoWrongWord = 8
)

// vocabulary is the words of all phrases.
type vocabulary struct {
	sorted bool           // by text
	index  map[string]int // before
	list   []word
}

type word struct {
	text    string
	set     characters
	phrases []int32
}

// add enters the words of a phrase, and each two neighbours joined (tie rod is also
// tierod), and says how many words it has.
func (v *vocabulary) add(text string, id int32) int {
	words := split(text)
	for i, w := range words {
		v.enter(singular(w.text), id)
		if i > 0 && !(figures(w.text) && figures(words[i-1].text)) { // 1/8 is not 18
			v.enter(singular(words[i-1].text+w.text), id)
		}
	}
	return len(words)
}

func figures(text string) bool { return strings.Trim(text, "0123456789") == "" }

func (v *vocabulary) enter(text string, id int32) {
	i, ok := 0, false
	if v.sorted {
		i = v.from(text)
		ok = i < len(v.list) && v.list[i].text == text
	} else {
		i, ok = v.index[text]
	}
	if !ok && !v.sorted {
		if v.index == nil {
			v.index = map[string]int{}
		}
		i = len(v.list)
		v.index[text] = i
	}
	if !ok {
		v.list = slices.Insert(v.list, i, word{text: text, set: charactersOf(text)})
	}
	if p := v.list[i].phrases; len(p) == 0 || p[len(p)-1] != id {
		v.list[i].phrases = append(p, id)
	}
}

func (v *vocabulary) sort() {
	v.index, v.sorted = nil, true
	order.By(v.list, func(a, b word) int { return strings.Compare(a.text, b.text) })
}

// each calls found with every word that typed may mean and how good that is. Guesses
// and patterns are left out unless loose.
func (v *vocabulary) each(typed string, last, loose bool, found func(w *word, quality float64)) {
	if strings.ContainsAny(typed, "?*") {
		if loose {
			v.eachPattern(typed, found)
		}
		return
	}
	whole := singular(typed)
	exact := -1
	if i := v.from(whole); i < len(v.list) && v.list[i].text == whole {
		exact = i
		found(&v.list[i], 1)
	}
	if letters := len([]rune(typed)); letters > 1 || last {
		for i := v.from(typed); i < len(v.list) && strings.HasPrefix(v.list[i].text, typed); i++ {
			if i != exact {
				found(&v.list[i], beginning+0.1*float64(letters)/float64(len([]rune(v.list[i].text))))
			}
		}
	}
	if loose {
		v.eachGuess(whole, typed, found)
	}
}

func (v *vocabulary) from(text string) int {
	return sort.Search(len(v.list), func(i int) bool { return v.list[i].text >= text })
}

func (v *vocabulary) eachGuess(typed, begun string, found func(w *word, quality float64)) {
	runes := []rune(typed)
	wrong := 0
	if len(runes) >= oneWrongWord {
		wrong = 1
	}
	if len(runes) >= twoWrongWord {
		wrong = 2
	}
	if wrong == 0 {
		return
	}
	set := charactersOf(typed)
	for i := range v.list {
		w := &v.list[i]
		if set.missing(w.set) > wrong || w.set.missing(set) > wrong || w.text == typed || strings.HasPrefix(w.text, begun) {
			continue
		}
		kept := []rune(w.text)
		if len(kept) < oneWrongWord || len(kept) > len(runes)+wrong || len(kept) < len(runes)-wrong {
			continue
		}
		switch cost := distance(runes, kept, wrong*costWrong); {
		case cost <= costWrong:
			found(w, guessed)
		case cost <= wrong*costWrong:
			found(w, guessedTwo)
		}
	}
}

// eachPattern goes through the words that fit a pattern; wildcards alone fit none.
func (v *vocabulary) eachPattern(pattern string, found func(w *word, quality float64)) {
	plain := strings.Trim(pattern, "?*")
	if plain == "" {
		return
	}
	for i := range v.list {
		w := &v.list[i]
		// "pump?" may also be a question about a pump.
		if matchesPattern(pattern, w.text) || w.text == plain {
			found(w, beginning)
		}
	}
}
