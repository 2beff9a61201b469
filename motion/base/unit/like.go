package unit

import "strings"

// Like prints a value held in the unit of dim as text writes such a one: in its unit, so
// that whoever writes "4 cm" goes on reading centimetres. Where text has no quantity of
// that dimension it is Format.
func Like(text string, value float64, dim Dimension) string {
	number, name := split(strings.TrimSpace(text))
	name = strings.TrimSpace(name)
	u, err := lookUp(name)
	q := turned(Quantity{Dim: u.dim}, []Dimension{dim})
	if err != nil || number == "" || name == "" || q.Dim != dim {
		return Format(value, dim)
	}
	if u.dim != dim {
		u.factor = u.factor.Mul(perTurn)
	}
	return figure(value/u.factor.Float()) + " " + name
}
