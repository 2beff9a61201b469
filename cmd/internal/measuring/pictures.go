package measuring

import "strings"

// drawn is a picture for a screen, or for one that has ASCII alone.
func drawn(picture string, plain bool) string {
	text := strings.Trim(picture, "\n")
	if plain {
		text = ascii.Replace(text)
	}
	return text
}

// ascii has one character for each of a picture's, so that it keeps its shape.
var ascii = strings.NewReplacer(
	"─", "-", "═", "=", "│", "|", "║", "|", "┌", "+", "┐", "+", "└", "+", "┘", "+", "┬", "+", "┴", "+", "├", "+", "┤", "+", "┼", "+",
	"╧", "=", "╤", "|", "▲", "^", "▼", "v", "►", ">", "◄", "<", "●", "o", "○", "o", "╭", "/", "╮", "\\", "╰", "\\", "╯", "/", "█", "#", "°", "'",
)

const (
	rulerPicture = `
        A                            B
      ┌───┐                        ┌───┐
      │   │ ─── told to go ──────► │   │   carriage with a pointer
   ═══╧═╤═╧════════════════════════╧═╤═╧═══════  rail
        ▼                            ▼
   ┬──┬──┬──┬──┬──┬──┬──┬──┬──┬──┬──┬──┬──┬──┬─  ruler, fixed beside the rail
   0           100         200         300  mm   look at it straight on
`
	turnPicture = `
         ▼  pointer, fixed               ▼
      ╭──█──╮                         ╭──┼─█╮   the mark is past it: +
     │   │   │   whole turns         │   │   │
     │   ●   │  ─────────────►       │   ●   │   it falls short:    -
     │       │                       │       │
      ╰─────╯                         ╰─────╯
`
	playPicture = `
   upward to P:                      downward to P:
        ───────►                          ◄───────
            ┌───┐                         ┌───┐
            │   ├──(●) gauge              │   ├──(●) gauge
   ═════════╧═══╧════════════      ═══════╧═══╧════════════
   The same place P by count; what the gauge reads differs by the play.
`
	trialPicture = `
   asked                   ┌─┐ ◄── steps lost: it stops here
                  ┌─┐      │ │
         ┌─┐      │ │ ◄────┼─┼──── the last that held: a share of it is kept
   ┌─┐   │ │      │ │      │ │
  ─┴─┴─▲─┴─┴──▲───┴─┴──▲───┴─┴─▲──  ▲ looked for lost steps, after each
`
	markPicture = `
        ┌───┐                        ┌───┐
        │   │                        │   │ ─►
   ═════╧═╤═╧══════           ═══════╧═╤═╧════
          ▼                            ▼
   ───────┼────────           ───────┼────────     tape with a pencil line
     on the mark                off by so much
`
	swingPicture = `
      ┌──────┐  phone, fixed to what swings      acceleration
      │camera│  its long side along the rail      │╭╮
    ┌─┴──────┴─┐                                  ││╰╮╭─╮
    │ carriage │ ──► stop                        ─┼╯ ╰╯ ╰─── let it ring
   ═╧══════════╧══════                            │
`
	sweepPicture = `
      ┌──────┐  phone                     times as far
      │camera│                             │     ╭╮
    ┌─┴──────┴─┐                           │     ││     a resonance
    │ carriage │ ◄─► to and fro,           │    ╭╯╰╮
   ═╧══════════╧══════  faster and faster  1────╯  ╰─────
                                           └──────┼──────► Hz
`
	shutterPicture = `
   signal          shutter opens
     ▼                 ▼
   ──┴─────────────────┴─────────────► time
     │◄─ how late ────►│
   counter 12.00       counter in the picture 12.06     late by 0.06 s
`
)
