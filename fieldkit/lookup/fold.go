package lookup

import (
	"strings"
	"unicode"
)

// folded maps letters with marks to the letter people type without them. Only what
// turns up in names of makes, people and towns.
var folded = map[rune]string{
	'à': "a", 'á': "a", 'â': "a", 'ã': "a", 'ä': "a", 'å': "a", 'æ': "ae", 'ç': "c",
	'è': "e", 'é': "e", 'ê': "e", 'ë': "e", 'ì': "i", 'í': "i", 'î': "i", 'ï': "i",
	'ñ': "n", 'ò': "o", 'ó': "o", 'ô': "o", 'õ': "o", 'ö': "o", 'ø': "o", 'œ': "oe",
	'ß': "ss", 'š': "s", 'ù': "u", 'ú': "u", 'û': "u", 'ü': "u", 'ý': "y", 'ž': "z",
	'×': "x", '½': " 1 2 ", '¼': " 1 4 ", '¾': " 3 4 ",
}

// fold gives lower case without marks; a rune that is no letter, digit or wildcard
// gives nothing.
func fold(r rune) string {
	r = unicode.ToLower(r)
	if plain, ok := folded[r]; ok {
		return plain
	}
	if unicode.IsLetter(r) || unicode.IsDigit(r) || r == '?' || r == '*' {
		return string(r)
	}
	return ""
}

// foldNumber folds a number to what decides: separators, case and marks gone.
func foldNumber(s string) string {
	var b strings.Builder
	for _, r := range s {
		b.WriteString(strings.ReplaceAll(fold(r), " ", ""))
	}
	return b.String()
}

// spelling maps words spelled in two ways, and shop abbreviations, to one of them.
var spelling = map[string]string{
	"tire": "tyre", "center": "centre", "gage": "gauge", "calliper": "caliper",
	"disk": "disc", "aluminum": "aluminium", "color": "colour", "lh": "left", "rh": "right",
	"leaves": "leaf", "halves": "half",
}

// singular folds the plural of a word and its other spelling. It need not be right,
// only the same on both sides.
func singular(word string) string {
	if plain, ok := spelling[word]; ok {
		return plain
	}
	cut := word
	switch {
	case len(word) < 4 || !strings.HasSuffix(word, "s"):
	case strings.HasSuffix(word, "ies"):
		cut = word[:len(word)-3] + "y"
	case hasAnySuffix(word, "ches", "shes", "sses", "xes", "zes"):
		cut = word[:len(word)-2]
	case !hasAnySuffix(word, "ss", "us", "is"):
		cut = word[:len(word)-1]
	}
	if plain, ok := spelling[cut]; ok {
		return plain
	}
	return cut
}

func hasAnySuffix(s string, suffixes ...string) bool {
	for _, suffix := range suffixes {
		if strings.HasSuffix(s, suffix) {
			return true
		}
	}
	return false
}

// span is a word of a text with its place in it.
type span struct {
	text       string // folded
	start, end int    // bytes of the text it was cut from
}

// split cuts a text into words: runs of letters, digits and wildcards. An apostrophe
// inside a word does not end it.
func split(text string) []span {
	var words []span
	var b strings.Builder
	start := 0
	close := func(end int) {
		if b.Len() > 0 {
			words = append(words, span{b.String(), start, end})
			b.Reset()
		}
	}
	runes := []rune(text)
	at := 0
	for i, r := range runes {
		plain := fold(r)
		inside := (r == '\'' || r == '’') && b.Len() > 0 && i+1 < len(runes) && unicode.IsLetter(runes[i-1]) && unicode.IsLetter(runes[i+1])
		switch {
		case strings.HasPrefix(plain, " "): // a fraction in one character: two words
			close(at)
			for _, figure := range strings.Fields(plain) {
				words = append(words, span{figure, at, at + len(string(r))})
			}
		case plain != "":
			if b.Len() == 0 {
				start = at
			}
			b.WriteString(plain)
		case !inside:
			close(at)
		}
		at += len(string(r))
	}
	close(at)
	return words
}
