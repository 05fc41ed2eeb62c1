package site

// Answers to choose from. No students' file must say which is right: what the page replies to each, its verdict and the
// hint, is in the lesson's script only in a form that nobody can read, and choose.js can.

import (
	"encoding/base64"
	"strings"

	"trundle/generator/lesson"
	"trundle/generator/typography"
	"trundle/site/words"
)

// What a reply begins with: whether the answer is right.
const rightReply, wrongReply = "+", "-"

// repliesTo are what is said to each answer of a choose. All are of one length, which tells nothing.
func repliesTo(choose *lesson.Statement, w words.Words) []string {
	var replies []string
	longest, marks := 0, typography.In(w.Forms())
	for _, a := range choose.Answers {
		reply := wrongReply + marks.Text(w.Say("check-choose"))
		switch {
		case a.Right:
			reply = rightReply + marks.Text(w.Say("check-right"))
		case a.Hint != nil:
			reply = wrongReply + marks.Text(a.Hint.Prompt)
		}
		replies = append(replies, reply)
		longest = max(longest, len(reply))
	}
	for i, a := range choose.Answers {
		replies[i] = scrambled(replies[i]+strings.Repeat(" ", longest-len(replies[i])), choose.Name+" "+a.Text)
	}
	return replies
}

// scrambled makes a text unreadable by bytes that follow from another text; choose.js undoes it. It is no secret from
// who wants to work it out, and none from who looks at the page's source.
func scrambled(text, by string) string {
	const offset, prime, factor, step = 2166136261, 16777619, 1597334677, 0x9e3779b9
	state := uint32(offset)
	for _, c := range by {
		state = (state ^ uint32(c)) * prime
	}
	bytes := []byte(text)
	for i := range bytes {
		state = (state^state>>13)*factor + step
		bytes[i] ^= byte(state >> 24)
	}
	return base64.StdEncoding.EncodeToString(bytes)
}

// choice adds to a mentors' row the right answers, and what the wrong ones are told.
func choice(out *keyRow, s *lesson.Statement) {
	var right []string
	for _, a := range s.Answers {
		switch {
		case a.Right:
			right = append(right, a.Text)
		case a.Hint != nil:
			out.If = append(out.If, keySlip{Shown: amount{Number: a.Text}, Hint: a.Hint.Prompt})
		default:
			out.If = append(out.If, keySlip{Shown: amount{Number: a.Text}})
		}
	}
	out.Shown = amount{Number: strings.Join(right, " / ")}
}
