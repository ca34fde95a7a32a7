package standards

import (
	"fmt"
	"strconv"
	"strings"

	"trailfieldkit/fieldkit"
)

// Service is a tyre's service description: load index, alone and as one of a pair,
// speed symbol, load range or ply rating.
type Service struct {
	Index, DualIndex int // 0 if not said
	Load, DualLoad   fieldkit.Mass
	Symbol           string
	Speed            string // in both units
	Range            string // load range letter
	Ply              int    // ply rating
	rangePly         int    // what the load range stands for
	source           string
}

// readService takes what stands behind the size, in any order, each once.
func (h *Handbook) readService(s *scan) (Service, *Misread) {
	var v Service
	for {
		s.skip(" ,-")
		if s.done() {
			return v, nil
		}
		at := s.at
		switch digits := s.digits(); {
		case digits != "" && s.skip(" "), digits != "" && s.peek() == 'P':
			// "10 PR", "10PR", "10 ply"; "121 Q" is read as "121Q".
			if s.word("PR", "PLY") != "" && v.Ply == 0 {
				v.Ply, _ = strconv.Atoi(digits)
				if v.Ply < 2 || v.Ply > 40 {
					s.at = at
					return Service{}, s.expected(KindTyre, "a ply rating")
				}
				continue
			}
			if m := h.loadIndex(s, &v, digits, at); m != nil {
				return Service{}, m
			}
		case digits != "":
			if m := h.loadIndex(s, &v, digits, at); m != nil {
				return Service{}, m
			}
		default:
			if m := h.loadRange(s, &v); m != nil {
				return Service{}, m
			}
		}
	}
}

// loadIndex takes the rest of 121/118Q behind its first figures.
func (h *Handbook) loadIndex(s *scan, v *Service, digits string, at int) *Misread {
	kg, ok := h.loads[digits]
	if !ok || v.Index != 0 {
		s.at = at
		return s.misread(KindTyre, "%q is no load index of the table", digits)
	}
	v.Index, _ = strconv.Atoi(digits)
	v.Load, v.source = kg.load, kg.source
	if s.take('/') {
		dualAt := s.at
		dual := s.digits()
		kg, ok := h.loads[dual]
		if v.DualIndex, _ = strconv.Atoi(dual); !ok || v.DualIndex > v.Index {
			s.at = dualAt
			return s.expected(KindTyre, "a load index for a pair, no higher than the first")
		}
		v.DualLoad = kg.load
	}
	s.blank()
	symbolAt := s.at
	symbol := s.speedSymbol(h)
	if v.Symbol = symbol; symbol == "" {
		s.at = symbolAt
		return s.expected(KindTyre, "a speed symbol")
	}
	v.Speed = h.speeds[symbol]
	return nil
}

func (s *scan) speedSymbol(h *Handbook) string {
	letter := s.letters()
	if letter == "A" {
		letter += s.digits()
	}
	if h.speeds[letter] == "" {
		return ""
	}
	return letter
}

// loadRange takes a load range: LR E, load range E, or E alone behind the size.
func (h *Handbook) loadRange(s *scan, v *Service) *Misread {
	at := s.at
	s.word("LR", "LOAD RANGE", "LOAD RANGE:")
	s.skip(" ")
	letter := s.letters()
	ply, ok := h.plies[letter]
	if !ok && strings.HasPrefix(letter, "LR") { // LRE
		ply, ok = h.plies[letter[2:]]
		letter = letter[2:]
	}
	if !ok || v.Range != "" {
		s.at = at
		return s.expected(KindTyre, "a load index, a load range or a ply rating")
	}
	v.Range, v.rangePly = letter, ply
	return nil
}

func (v Service) String() string {
	var parts []string
	if v.Index != 0 {
		text := strconv.Itoa(v.Index)
		if v.DualIndex != 0 {
			text += "/" + strconv.Itoa(v.DualIndex)
		}
		parts = append(parts, text+v.Symbol)
	}
	if v.Range != "" {
		parts = append(parts, "LR "+v.Range)
	}
	if v.Ply != 0 {
		parts = append(parts, fmt.Sprintf("%dPR", v.Ply))
	}
	return strings.Join(parts, " ")
}

func (v Service) explain() []Piece {
	var pieces []Piece
	if v.Index != 0 {
		pieces = append(pieces, Piece{strconv.Itoa(v.Index), "load index: carries " + v.Load.Both(fieldkit.Metric)})
	}
	if v.DualIndex != 0 {
		pieces = append(pieces, Piece{strconv.Itoa(v.DualIndex), "load index as one of a pair: carries " + v.DualLoad.Both(fieldkit.Metric)})
	}
	if v.Symbol != "" {
		pieces = append(pieces, Piece{v.Symbol, "speed symbol: up to " + v.Speed})
	}
	if v.Range != "" {
		pieces = append(pieces, Piece{"LR " + v.Range, fmt.Sprintf("load range: as strong as %d plies", v.rangePly)})
	}
	if v.Ply != 0 {
		pieces = append(pieces, Piece{fmt.Sprintf("%dPR", v.Ply), "ply rating: strength, not the number of plies"})
	}
	return pieces
}

type tyreLoad struct {
	load   fieldkit.Mass
	source string
}

func (o *opener) tyres(h *Handbook) {
	h.loads, h.speeds, h.plies = map[string]tyreLoad{}, map[string]string{}, map[string]int{}
	o.each("load_index", func(r row) {
		kg := fieldkit.Mass(r.thousandths("load_kg")) * fieldkit.Gram
		h.loads[r.text("load_index")] = tyreLoad{kg, r.source()}
	})
	o.each("speed_symbols", func(r row) {
		h.speeds[r.text("symbol")] = fmt.Sprintf("%s km/h (%s mph)", r.text("max_speed_km_h"), r.text("max_speed_mph"))
	})
	o.each("load_range", func(r row) { h.plies[r.text("letter")] = r.whole("ply_rating") })
}
