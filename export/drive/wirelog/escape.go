package wirelog

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// escaped is bytes as a line can hold them: what can be looked at as it is, but for the
// backslash, and everything else as \n, \r, \t, \\ or \x and two digits.
func escaped(b []byte) string {
	var out strings.Builder
	for len(b) > 0 {
		r, n := utf8.DecodeRune(b)
		switch {
		case r == '\\':
			out.WriteString(`\\`)
		case r == '\n':
			out.WriteString(`\n`)
		case r == '\r':
			out.WriteString(`\r`)
		case r == '\t':
			out.WriteString(`\t`)
		case r == utf8.RuneError && n == 1 || !unicode.IsGraphic(r):
			for _, c := range b[:n] {
				fmt.Fprintf(&out, `\x%02x`, c)
			}
		default:
			out.Write(b[:n])
		}
		b = b[n:]
	}
	return out.String()
}

// letters are the escapes of one letter.
var letters = map[byte]byte{'\\': '\\', 'n': '\n', 'r': '\r', 't': '\t'}

// unescaped reads what escaped wrote.
func unescaped(s string) ([]byte, error) {
	out := make([]byte, 0, len(s))
	for i := 0; i < len(s); i++ {
		if s[i] != '\\' {
			out = append(out, s[i])
			continue
		}
		rest := s[i+1:]
		switch {
		case rest != "" && letters[rest[0]] != 0:
			out = append(out, letters[rest[0]])
			i++
		case len(rest) >= 3 && rest[0] == 'x':
			n, err := strconv.ParseUint(rest[1:3], 16, 8)
			if err != nil {
				return nil, fmt.Errorf(`\%s is no byte; \x0a would be one`, rest[:3])
			}
			out = append(out, byte(n))
			i += 3
		default:
			return nil, fmt.Errorf(`a backslash is followed by \\, n, r, t or x and two digits, and not by %q`, rest[:min(len(rest), 3)])
		}
	}
	return out, nil
}
