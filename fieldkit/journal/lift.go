package journal

import "bytes"

// liftFrom is how many bytes an entry has at least whose kit is lifted out.
const liftFrom = 64 << 10

// lift takes the kit and its history out of the text of an entry that a kit starts anew
// with: where they end is told by their brackets, and what they hold is read by those who
// use them, once. What is left is a text of its own. An entry that is not written as
// encode does is left whole.
func lift(body []byte) (rest, kit, history []byte) {
	if len(body) < liftFrom {
		return body, nil, nil
	}
	return liftOut(body)
}

func liftOut(body []byte) (rest, kit, history []byte) {
	if !bytes.HasPrefix(body, []byte{'{'}) {
		return body, nil, nil
	}
	rest = []byte{'{'}
	for at := 1; ; at++ {
		colon := endOf(body, at)
		if colon == len(body) || body[colon] != ':' {
			return body, nil, nil
		}
		name, end := string(body[at:colon]), endOf(body, colon+1)
		value := body[colon+1 : end]
		group := bytes.HasPrefix(value, []byte{'{'})
		switch {
		case group && name == `"kit"` && kit == nil:
			kit = value
		case group && name == `"history"` && history == nil:
			history = value
		default:
			if len(rest) > 1 {
				rest = append(rest, ',')
			}
			rest = append(rest, body[at:end]...)
		}
		switch {
		case end == len(body)-1 && body[end] == '}':
			return append(rest, '}'), kit, history
		case end == len(body) || body[end] != ',':
			return body, nil, nil
		}
		at = end
	}
}

// endOf gives the place behind the JSON value that begins at a place, the text's end if it
// has none. It does not look into the value more than it must.
func endOf(text []byte, at int) int {
	for depth := 0; at < len(text); at++ {
		switch text[at] {
		case '"':
			for at++; at < len(text) && text[at] != '"'; at++ {
				if text[at] == '\\' {
					at++
				}
			}
		case '{', '[':
			depth++
			continue
		case '}', ']':
			depth--
		case ',', ':':
			continue
		default:
			if depth == 0 { // a number or a word
				if n := bytes.IndexAny(text[at:], ",:}]"); n >= 0 {
					return at + n
				}
				return len(text)
			}
			continue
		}
		if depth <= 0 {
			return min(at+1, len(text))
		}
	}
	return len(text)
}
