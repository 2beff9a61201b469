package plain

import (
	"encoding/json"
	"fmt"
	"io"
	"unicode/utf16"
)

// escaped adds r as RFC 8259 escapes it: two of them beyond the first plane.
func escaped(out []byte, r rune) []byte {
	if high, low := utf16.EncodeRune(r); high != 0xfffd {
		return fmt.Appendf(out, `\u%04x\u%04x`, high, low)
	}
	return fmt.Appendf(out, `\u%04x`, r)
}

// Encoder returns an encoder of JSON to w that writes nothing that Text would
// replace, and says the same.
func Encoder(w io.Writer) *json.Encoder { return json.NewEncoder(door{w}) }

// door is what an Encoder writes to, a value at once.
type door struct{ io.Writer }

func (d door) Write(b []byte) (int, error) {
	if _, err := d.Writer.Write(JSON(b)); err != nil {
		return 0, err
	}
	return len(b), nil
}
