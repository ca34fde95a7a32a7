package lookup

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/standards"
)

// maxWhy is how many reasons a hit gives; the rest would not be read.
const maxWhy = 4

// hit writes down what was found and why.
func (s *search) hit(f scored) Hit {
	if f.read != nil && s.shelf {
		return readHit(f)
	}
	e := &s.ix.entries[f.entry]
	h := Hit{Kind: e.kind, ID: e.id, Title: e.title, Sub: e.sub, Score: f.score, Donor: e.donor, Designation: e.designation, Row: e.row}
	base := make(choice, len(s.segments))
	s.best(base, e.phrases)
	chosen, how, at := base, s.cover(base), ""
	covers := make([]covering, len(e.places))
	for i, p := range e.places {
		here := slices.Clone(base)
		s.best(here, p.phrases)
		covers[i] = s.cover(here)
		if covers[i].beats(how) {
			chosen, how, at = here, covers[i], p.title
		}
	}
	switch e.kind {
	case PartHit:
		h.Part = e.id
		for i, p := range e.places {
			if covers[i].missed == how.missed {
				h.Positions = append(h.Positions, p.position)
			}
		}
		if len(h.Positions) > 0 {
			h.Position = h.Positions[0]
		}
	case PositionHit:
		h.Position = e.id
	}
	if f.read != nil {
		h.Why = []string{"bears " + f.read.String() + ", as the query reads"}
		return h
	}
	h.Why = s.why(e, chosen, s.chosen(how), at)
	if how.missed > 0 {
		h.Why = append(h.Why, "nothing for "+strings.Join(s.unmatched(how), ", "))
	}
	return h
}

// readHit is a designation that the query was read as.
func readHit(f scored) Hit {
	d := f.read
	kind, text := string(d.Kind()), d.String()
	if last := kind[strings.LastIndex(kind, " ")+1:]; strings.HasPrefix(text, last+" ") { // "battery group 34"
		kind = strings.TrimSuffix(kind, " "+last)
	}
	why := "read as " + kind + " " + text
	if !d.Listed() {
		why += ", which no table here holds"
	}
	return Hit{Kind: DesignationHit, ID: text, Title: text, Score: f.score, Designation: d, Why: []string{why}}
}

// Bearing gives a designation as a hit: with its second line, and the parts and
// positions of the kit that bear it.
func (ix *Index) Bearing(d standards.Designation) Hit {
	return ix.bearing(Hit{Kind: DesignationHit, ID: d.String(), Title: d.String(), Designation: d})
}

// shownFigures is how many figures of a designation its second line gives.
const shownFigures = 3

// secondLine says what a designation or row is and gives its first figures. It is
// kept: written anew for each hit at each letter typed it would take longer than the
// search.
func (s *Shelf) secondLine(h Hit) string {
	key := h.ID
	if h.Designation != nil {
		key = string(h.Designation.Kind()) + " " + h.Title
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	line, known := s.lines[key]
	if known {
		return line
	}
	var figures []standards.Dim
	if h.Designation != nil {
		line, figures = string(h.Designation.Kind()), h.Designation.Dims()
	} else {
		line, figures = strings.ReplaceAll(h.Row.Table, "_", " "), h.Row.Figures
	}
	for _, f := range figures[:min(shownFigures, len(figures))] {
		line += " · " + standards.Label(f.Name) + " " + f.Value.Both(fieldkit.Metric)
	}
	s.lines[key] = line
	return line
}

// bearing completes what was found in the tables with what it is and where the kit
// has it.
func (ix *Index) bearing(h Hit) Hit {
	if h.Designation == nil && h.Row == nil {
		return h
	}
	h.Sub = ix.shelf.secondLine(h)
	if h.Designation == nil {
		return h
	}
	for _, e := range ix.bearersOf(h.Designation) {
		part := &ix.entries[e]
		h.Parts = append(h.Parts, part.id)
		for _, p := range part.places {
			if len(h.Positions) == 0 {
				h.Position = p.position
				h.Why = append(h.Why, "fitted at "+p.title)
			}
			h.Positions = append(h.Positions, p.position)
		}
	}
	return h
}

// bearersOf gives the parts of the kit that bear a designation, in the kit's order.
func (ix *Index) bearersOf(d standards.Designation) []int32 {
	var list []int32
	for _, e := range ix.bearers[stemKey(d)] {
		if ix.entries[e].kind != "" {
			list = append(list, e)
		}
	}
	slices.SortFunc(list, func(a, b int32) int { return cmp.Compare(ix.entries[a].rank, ix.entries[b].rank) })
	return list
}

// unmatched quotes the words that a covering leaves out.
func (s *search) unmatched(how covering) (list []string) {
	matched := make([]bool, len(s.q.words))
	for _, i := range s.chosen(how) {
		for w := s.segments[i].from; w < s.segments[i].to; w++ {
			matched[w] = true
		}
	}
	for w := range matched {
		if !matched[w] && !s.q.idle[w] {
			list = append(list, fmt.Sprintf("%q", s.q.slice(w, w+1)))
		}
	}
	return list
}

// why tells for each segment what it matched, numbers first, each thing once.
func (s *search) why(e *entry, c choice, segments []int, at string) []string {
	var first, later []string
	var named []string
	for _, i := range segments {
		seg, p := &s.segments[i], &s.ix.phrases[c[i].phrase]
		switch p.field {
		case fieldNumber, fieldDesignation, fieldHalf, fieldSuffixed:
			first = append(first, s.whyNumber(seg, p))
			continue
		case fieldName:
			named = append(named, fmt.Sprintf("%q", s.q.slice(seg.from, seg.to)))
		case fieldKindName:
			later = append(later, "a kind of "+p.text)
		case fieldSynonym:
			later = append(later, "also called "+p.text)
		case fieldPlace:
			later = append(later, wherePlaced(e, p, at))
		case fieldDonor:
			later = append(later, donorWords(e, p))
		case fieldYears:
			later = append(later, fmt.Sprintf("%s is within %s", seg.typed, p.text))
		case fieldIssuer:
			later = append(later, "number from "+p.text)
		case fieldAttribute:
			later = append(later, "measured: "+p.text)
		case fieldStowed:
			later = append(later, "kept: "+p.text)
		case fieldMeasure:
			later = append(later, whyMeasure(seg, p))
		}
		if guess := s.guess(seg, p); guess != "" {
			later = append(later, guess)
		}
	}
	if len(named) > 0 {
		first = append(first, strings.Join(named, ", ")+" in the name")
	}
	var list []string
	for _, reason := range append(first, later...) {
		if len(list) < maxWhy && !has(list, reason) {
			list = append(list, reason)
		}
	}
	return list
}

func has(list []string, s string) bool {
	for _, have := range list {
		if have == s {
			return true
		}
	}
	return false
}

func wherePlaced(e *entry, p *phrase, at string) string {
	switch {
	case e.kind == KindHit:
		return "usual in " + p.text
	case at != "":
		return "fitted at " + at
	}
	return "at " + p.text
}

func donorWords(e *entry, p *phrase) string {
	switch e.kind {
	case DonorHit:
		return "noted: " + p.text
	case ConsumableHit:
		return "grade " + p.text
	}
	return "from donor " + p.text
}

// whyNumber names the number that matched and how it was read.
func (s *search) whyNumber(seg *segment, p *phrase) string {
	text := "number " + p.text
	switch p.field {
	case fieldDesignation, fieldSuffixed:
		text = "designation " + p.text
	case fieldHalf:
		text = p.text + ", half of " + p.of
	}
	if p.of != "" && p.field != fieldHalf {
		text += ", " + p.of
	}
	typed, kept := seg.typed, foldNumber(p.text)
	switch {
	case typed == kept:
		return text
	case strings.HasPrefix(kept, typed):
		return text + " begins so"
	case strings.Contains(typed, "*") || strings.Trim(typed, "?") == "":
		return text + " fits what can be read"
	case strings.HasPrefix(skeleton(kept), skeleton(typed)):
		kept = string([]rune(kept)[:len([]rune(typed))])
		return text + " (" + strings.Join(readings(typed, kept), ", ") + ")"
	}
	piece, whole := []rune(typed), []rune(kept)
	if at := find(skeleton(typed), skeleton(kept), true); at >= 0 && len(piece) < len(whole) {
		words := bracketed(readings(typed, string(whole[at:at+len(piece)])))
		if at == 0 {
			return text + " begins so" + words
		}
		return text + " has it inside" + words
	}
	return text + bracketed(readings(typed, kept))
}

func bracketed(words []string) string {
	if len(words) == 0 {
		return ""
	}
	return " (" + strings.Join(words, ", ") + ")"
}

func whyMeasure(seg *segment, p *phrase) string {
	text := p.of + " " + p.value.Both(seg.size.system)
	if p.value == seg.size.value {
		return text
	}
	typed := seg.size.value.Show(seg.size.system)
	if typed == p.value.Show(seg.size.system) || typed == "" {
		return text
	}
	return text + ", near " + typed
}

// guess says how a misspelt word was read: the nearest word of the phrase.
func (s *search) guess(seg *segment, p *phrase) string {
	if seg.as != fieldName || strings.ContainsAny(seg.typed, "?*") {
		return ""
	}
	whole := singular(seg.typed)
	nearest, least := "", (twoWrongWord+1)*costWrong
	words := split(p.text)
	for i, w := range words {
		options := []string{w.text}
		if i > 0 {
			options = append(options, words[i-1].text+w.text)
		}
		for _, o := range options {
			if singular(o) == whole || strings.HasPrefix(singular(o), seg.typed) || strings.HasPrefix(o, seg.typed) {
				return ""
			}
			if cost := distance([]rune(whole), []rune(singular(o)), least); cost < least {
				nearest, least = o, cost
			}
		}
	}
	return fmt.Sprintf("%q read as %q", seg.typed, nearest)
}
