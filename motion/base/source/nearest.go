package source

import "strings"

// Nearest returns the word of known that is most likely meant by word, or ""
// if none is near: a slip or two, three in a long word.
func Nearest(word string, known []string) string {
	best, bestSlips := "", slipsAllowed(word)+1
	for _, k := range known {
		if d := slips(strings.ToLower(word), strings.ToLower(k)); d < bestSlips {
			best, bestSlips = k, d
		}
	}
	return best
}

func slipsAllowed(word string) int {
	switch n := len([]rune(word)); {
	case n <= 3:
		return 1
	case n <= 7:
		return 2
	}
	return 3
}

// slips counts the letters to add, drop, change or swap with a neighbour to
// turn a into b: the restricted edit distance of F. J. Damerau, Comm. ACM
// 7:171-176, 1964, DOI 10.1145/363958.363994, by the table of R. A. Wagner and
// M. J. Fischer, J. ACM 21:168-173, 1974, DOI 10.1145/321796.321811.
func slips(a, b string) int {
	s, t := []rune(a), []rune(b)
	if len(s) > maxWord || len(t) > maxWord {
		return maxWord
	}
	before, row := make([]int, len(t)+1), make([]int, len(t)+1)
	for j := range row {
		row[j] = j
	}
	for i := range s {
		next := make([]int, len(t)+1)
		next[0] = i + 1
		for j := range t {
			cost := 1
			if s[i] == t[j] {
				cost = 0
			}
			next[j+1] = min(row[j+1]+1, next[j]+1, row[j]+cost)
			if i > 0 && j > 0 && s[i] == t[j-1] && s[i-1] == t[j] {
				next[j+1] = min(next[j+1], before[j-1]+1)
			}
		}
		before, row = row, next
	}
	return row[len(t)]
}

// maxWord is longer than any key: nothing longer is worth comparing.
const maxWord = 64
