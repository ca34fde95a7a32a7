package lookup

// profile counts the characters of a number, four bits each: the ten figures, and the
// letters in six groups. Seven of one count as many. It tells quickly that two numbers
// differ in more than a few characters.
type profile uint64

const highBits = 0x8888888888888888

// profileOf counts a text that is folded to a skeleton; what cannot be read does not
// count.
func profileOf(skeleton string) (p profile) {
	for _, r := range skeleton {
		var class uint
		switch {
		case r == '?' || r == '*':
			continue
		case r >= '0' && r <= '9':
			class = uint(r - '0')
		default:
			class = 10 + uint(r)%6
		}
		if p>>(4*class)&7 < 7 {
			p += 1 << (4 * class)
		}
	}
	return p
}

// beyond gives how many characters p has at least that other has not.
func (p profile) beyond(other profile) int {
	difference := (uint64(p) | highBits) - uint64(other) // 8 more than it is, in each place
	positive := difference & highBits
	more := difference & (positive - positive>>3) // the places where p has more, without the 8
	more = more&0x0f0f0f0f0f0f0f0f + more>>4&0x0f0f0f0f0f0f0f0f
	return int(more * 0x0101010101010101 >> 56)
}
