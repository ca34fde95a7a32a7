package qr

import "rsc.io/qr/coding"

// penalty scores a masked square by the four rules of ISO/IEC 18004, evaluation of
// data masking results: runs of five and more (3 + the rest), blocks of 2 by 2 (3),
// patterns like a finder's beside four light modules (40), and the dark share's
// distance from a half in steps of 5 % (10).
func penalty(c *coding.Code) int {
	n, score, dark := c.Size, 0, 0
	line := make([]bool, n)
	for i := range n {
		for j := range n {
			line[j] = c.Black(j, i)
			if line[j] {
				dark++
			}
			if i > 0 && j > 0 && c.Black(j-1, i) == line[j] && c.Black(j, i-1) == line[j] && c.Black(j-1, i-1) == line[j] {
				score += 3
			}
		}
		score += lineScore(line)
		for j := range n {
			line[j] = c.Black(i, j)
		}
		score += lineScore(line)
	}
	off := dark*20 - n*n*10
	if off < 0 {
		off = -off
	}
	return score + off/(n*n)*10
}

// like is a finder's row beside four light modules, either way round.
var like = [2][11]bool{
	{true, false, true, true, true, false, true, false, false, false, false},
	{false, false, false, false, true, false, true, true, true, false, true},
}

func lineScore(line []bool) int {
	score, run := 0, 0
	for i, on := range line {
		if i > 0 && line[i-1] == on {
			run++
		} else {
			run = 1
		}
		switch {
		case run == 5:
			score += 3
		case run > 5:
			score++
		}
		for _, pattern := range like {
			if i+1 >= len(pattern) && [11]bool(line[i+1-len(pattern):i+1]) == pattern {
				score += 40
			}
		}
	}
	return score
}
