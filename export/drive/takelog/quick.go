package takelog

import (
	"bytes"
	"encoding/json"
	"reflect"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"
)

// decoder reads lines. It keeps the words that come again and again in a log, such
// as the name of the shot.
type decoder struct{ common map[string]string }

// maxCommon is how many words are kept: more than a log has that come again.
const maxCommon = 64

// decode reads one line.
func (d *decoder) decode(line []byte, r *Record) bool {
	if d.quick(line, r) {
		return true
	}
	*r = Record{}
	return json.Unmarshal(line, r) == nil
}

// quick reads a line that is just as Writer writes it, several times as fast as
// encoding/json does. Of anything else, such as a note with quotes in it, it says
// false and means nothing by it: that is for encoding/json to judge.
func (d *decoder) quick(line []byte, r *Record) bool {
	*r = Record{}
	c := cursor{line, d}
	return c.fields(recordKeys, reflect.ValueOf(r).Elem()) && len(c.rest) == 0
}

// cursor is what is yet to be read of a line.
type cursor struct {
	rest []byte
	*decoder
}

// Where the fields of a record and of a deviation are, by their keys.
var recordKeys, worstKeys = keysOf(reflect.TypeFor[Record]()), keysOf(reflect.TypeFor[Worst]())

func keysOf(t reflect.Type) map[string]int {
	out := map[string]int{}
	for i := range t.NumField() {
		key, _, _ := strings.Cut(t.Field(i).Tag.Get("json"), ",")
		out[key] = i
	}
	return out
}

// fields reads an object into those of v.
func (c *cursor) fields(keys map[string]int, v reflect.Value) bool {
	return c.object(func(key []byte) bool {
		i, ok := keys[string(key)]
		return ok && c.value(v.Field(i).Addr().Interface())
	})
}

func (c *cursor) value(to any) (ok bool) {
	switch to := to.(type) {
	case *Kind:
		return c.words((*string)(to))
	case *string:
		return c.words(to)
	case *bool:
		return c.truth(to)
	case *float64:
		return c.number(to)
	case *int64:
		*to, ok = c.whole()
	case *int:
		var n int64
		n, ok = c.whole()
		*to = int(n)
	case *time.Time:
		text, read := c.text()
		return read && to.UnmarshalText(text) == nil
	case *[]Worst:
		return *to == nil && c.worst(to)
	}
	return ok
}

func (c *cursor) worst(out *[]Worst) bool {
	if !c.take('[') {
		return false
	}
	for {
		*out = append(*out, Worst{})
		if !c.fields(worstKeys, reflect.ValueOf(&(*out)[len(*out)-1]).Elem()) {
			return false
		}
		if !c.take(',') {
			return c.take(']')
		}
	}
}

// object reads an object of at least one key.
func (c *cursor) object(field func(key []byte) bool) bool {
	if !c.take('{') {
		return false
	}
	for {
		key, ok := c.text()
		if !ok || !c.take(':') || !field(key) {
			return false
		}
		if !c.take(',') {
			return c.take('}')
		}
	}
}

func (c *cursor) take(b byte) bool {
	if len(c.rest) == 0 || c.rest[0] != b {
		return false
	}
	c.rest = c.rest[1:]
	return true
}

// text reads a string that stands for itself.
func (c *cursor) text() ([]byte, bool) {
	if !c.take('"') {
		return nil, false
	}
	n := bytes.IndexByte(c.rest, '"')
	if n < 0 {
		return nil, false
	}
	text := c.rest[:n]
	c.rest = c.rest[n+1:]
	plain := true
	for _, b := range text {
		if b < ' ' || b == '\\' {
			return nil, false
		}
		plain = plain && b < utf8.RuneSelf
	}
	return text, plain || utf8.Valid(text)
}

func (c *cursor) words(s *string) bool {
	text, ok := c.text()
	if known, again := c.common[string(text)]; again {
		*s = known
		return ok
	}
	*s = string(text)
	if len(c.common) < maxCommon {
		c.common[*s] = *s
	}
	return ok
}

func (c *cursor) truth(to *bool) bool {
	var ok bool
	for _, v := range truths {
		if c.rest, ok = bytes.CutPrefix(c.rest, v.text); ok {
			*to = v.value
			return true
		}
	}
	return false
}

var truths = []struct {
	text  []byte
	value bool
}{{[]byte("true"), true}, {[]byte("false"), false}}

// digits reads what a number is made of, and declines what Go reads and JSON does
// not: a plus sign or nothing before it, a zero before another digit, a point
// without a digit beside it.
func (c *cursor) digits(more string) ([]byte, bool) {
	n := 0
	for n < len(c.rest) && (digit(c.rest[n]) || strings.IndexByte(more, c.rest[n]) >= 0) {
		n++
	}
	text := c.rest[:n]
	c.rest = c.rest[n:]
	whole := bytes.TrimPrefix(text, minus)
	point := bytes.IndexByte(whole, '.')
	sound := len(whole) > 0 && digit(whole[0]) && (len(whole) == 1 || whole[0] != '0' || whole[1] == '.') &&
		(point < 0 || point+1 < len(whole) && digit(whole[point+1]))
	return text, sound
}

var minus = []byte("-")

func digit(b byte) bool { return b >= '0' && b <= '9' }

func (c *cursor) whole() (int64, bool) {
	text, ok := c.digits("-")
	if !ok {
		return 0, false
	}
	n, err := strconv.ParseInt(string(text), 10, strconv.IntSize)
	return n, err == nil
}

func (c *cursor) number(to *float64) bool {
	text, ok := c.digits("-+.eE")
	if !ok {
		return false
	}
	var err error
	*to, err = strconv.ParseFloat(string(text), 64)
	return err == nil
}
