package standards

import (
	"fmt"
	"strings"
)

// Friction is the code on the edge of a brake lining: maker's letters and material,
// two letters of friction, cold and hot, and the mark of what is in it with the
// year: AB 1234 FF B14.
type Friction struct {
	Maker     string // letters and figures before the friction letters; may be ""
	Cold, Hot string
	Contents  string // A, B or N; "" if not said
	Year      int    // of making; 0 if not said

	coldSays, hotSays, contentsSays string
	source                          string
}

const maxFrictionMaker = 24 // characters

// ParseFriction reads an edge code. The error is a *Misread.
func (h *Handbook) ParseFriction(text string) (Friction, error) { return parse(text, h.readFriction) }

func (h *Handbook) readFriction(s *scan) (Friction, *Misread) {
	words, starts := s.allWords()
	if len(words) == 0 {
		return Friction{}, s.expected(KindFriction, "two letters of friction").notOfKind()
	}
	var f Friction
	last := len(words) - 1
	if mark := words[last]; len(mark) == 3 && h.contents[mark[:1]] != "" && mark[1] >= '0' && mark[1] <= '9' && mark[2] >= '0' && mark[2] <= '9' {
		f.Contents, f.contentsSays = mark[:1], h.contents[mark[:1]]
		f.Year = 2000 + int(mark[1]-'0')*10 + int(mark[2]-'0')
		last--
	} else if last > 0 && len(words[last]) == 1 && h.contents[words[last]] != "" {
		f.Contents, f.contentsSays = words[last], h.contents[words[last]]
		last--
	}
	if last < 0 {
		s.at = starts[0]
		return Friction{}, s.expected(KindFriction, "two letters of friction").notOfKind()
	}
	s.at = starts[last]
	letters := words[last]
	if len(letters) != 2 || h.friction[letters[:1]] == "" || h.friction[letters[1:]] == "" {
		return Friction{}, s.expected(KindFriction, "two letters of friction from C to H, or Z").notOfKind()
	}
	f.Cold, f.Hot = letters[:1], letters[1:]
	f.coldSays, f.hotSays, f.source = h.friction[f.Cold], h.friction[f.Hot], h.frictionSource
	f.Maker = strings.Join(words[:last], " ")
	if f.Maker != "" && (f.Maker[0] < 'A' || len(f.Maker) > maxFrictionMaker) {
		s.at = starts[0]
		return Friction{}, s.misread(KindFriction, "what stands before the friction letters is no maker and material").notOfKind()
	}
	s.at = len(s.runes)
	return f, nil
}

// allWords cuts what is left at blanks and dashes; a rune that is no letter, digit,
// blank or dash ends it all.
func (s *scan) allWords() (words []string, starts []int) {
	for at := s.at; at < len(s.runes); {
		if r := s.runes[at]; r == ' ' || r == '-' {
			at++
			continue
		}
		start := at
		for at < len(s.runes) && (s.runes[at] >= 'A' && s.runes[at] <= 'Z' || s.runes[at] >= '0' && s.runes[at] <= '9') {
			at++
		}
		if at == start {
			return nil, nil
		}
		words, starts = append(words, string(s.runes[start:at])), append(starts, start)
	}
	return words, starts
}

func (f Friction) Kind() Kind { return KindFriction }

// Listed is true for the friction letters by themselves: no table holds the makers.
func (f Friction) Listed() bool { return f.Maker == "" }

func (f Friction) String() string {
	text := f.Cold + f.Hot
	if f.Maker != "" {
		text = f.Maker + " " + text
	}
	switch {
	case f.Year != 0:
		text += fmt.Sprintf(" %s%02d", f.Contents, f.Year%100)
	case f.Contents != "":
		text += " " + f.Contents
	}
	return text
}

func (f Friction) Dims() []Dim {
	var d dims
	d.text("friction_cold", f.coldSays)
	d.text("friction_hot", f.hotSays)
	return d
}

func (f Friction) Source() string { return f.source }

func (f Friction) Explain() []Piece {
	var pieces []Piece
	if f.Maker != "" {
		pieces = append(pieces, Piece{f.Maker, "maker and material"})
	}
	pieces = append(pieces, Piece{f.Cold, "friction, normal: " + f.coldSays}, Piece{f.Hot, "friction, hot: " + f.hotSays + "; says nothing of wear or of how well it stops"})
	if f.Contents != "" {
		pieces = append(pieces, Piece{f.Contents, f.contentsSays})
	}
	if f.Year != 0 {
		pieces = append(pieces, Piece{fmt.Sprintf("%02d", f.Year%100), fmt.Sprintf("made in %d", f.Year)})
	}
	return pieces
}

func (o *opener) frictions(h *Handbook) {
	h.friction, h.contents = map[string]string{}, map[string]string{}
	o.each("friction_edge_code", func(r row) {
		says := r.text("note")
		if over, to := r.text("friction_over"), r.text("friction_up_to"); over != "" && to != "" {
			says = "over " + over + " to " + to
		}
		h.friction[r.text("letter")] = says
		h.frictionSource = r.source()
	})
	o.each("friction_env_code", func(r row) {
		says := r.text("note")
		if to := r.text("copper_up_to_percent"); to != "" {
			says = "copper up to " + to + " per cent, " + says
		}
		h.contents[r.text("mark")] = says
	})
}
