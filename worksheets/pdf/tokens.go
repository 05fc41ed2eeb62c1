package pdf

// The words of an object's text (ISO 32000-1, 7.2 and 7.3), for objects that are read back.

import (
	"iter"
	"slices"
	"strconv"
	"strings"
)

// tokens are the words of a text: names, numbers, strings as a whole, brackets.
func tokens(text string) iter.Seq[string] {
	return func(yield func(string) bool) {
		for at := 0; at < len(text); {
			if text[at] == ' ' || text[at] == '\n' {
				at++
				continue
			}
			end := at + lengthOfToken(text[at:])
			if !yield(text[at:end]) {
				return
			}
			at = end
		}
	}
}

// lengthOfToken is how long the word is that a text begins with.
func lengthOfToken(text string) int {
	switch {
	case strings.HasPrefix(text, "<<"), strings.HasPrefix(text, ">>"):
		return 2
	case text[0] == '[' || text[0] == ']':
		return 1
	case text[0] == '<': // a string in hexadecimal
		return strings.IndexByte(text+">", '>') + 1
	case text[0] == '(':
		return lengthOfString(text)
	}
	for i := 1; i < len(text); i++ {
		switch text[i] { // most words are so short that IndexAny would take longer to begin
		case ' ', '\n', '[', ']', '<', '>', '(', '/':
			return i
		}
	}
	return len(text)
}

// lengthOfString is how long a string in brackets is. Brackets in it have a backslash before them.
func lengthOfString(text string) int {
	for i := 1; i < len(text); i++ {
		switch text[i] {
		case '\\':
			i++
		case ')':
			return i + 1
		}
	}
	return len(text)
}

// values are what stands one after the other in a text, each with all that is in it.
func values(text string) []string {
	words := slices.AppendSeq(make([]string, 0, 8+len(text)/4), tokens(text))
	var all []string
	for i := 0; i < len(words); {
		end := i + 1
		if i+2 < len(words) && words[i+2] == "R" {
			end = i + 3
		}
		for depth := depthOf(words[i]); depth > 0 && end < len(words); end++ {
			depth += depthOf(words[end])
		}
		all = append(all, strings.Join(words[i:end], " "))
		i = end
	}
	return all
}

// depthOf is by how much a word leads into an array or a dictionary.
func depthOf(word string) int {
	switch word {
	case "[", "<<":
		return 1
	case "]", ">>":
		return -1
	}
	return 0
}

// entriesIn are the entries of a dictionary, as they are written; none if the text is no dictionary.
func entriesIn(text string) map[string]string {
	all := map[string]string{}
	inside, ok := strings.CutPrefix(strings.TrimSpace(text), "<<")
	if !ok {
		return all
	}
	entries := values(strings.TrimSuffix(inside, ">>"))
	for i := 0; i+1 < len(entries); i += 2 {
		all[entries[i]] = entries[i+1]
	}
	return all
}

// shifted writes the entries of a number tree's leaf (7.9.7) with keys that are larger by so many.
func shifted(nums string, by int) string {
	var all strings.Builder
	entries := values(strings.TrimSuffix(strings.TrimPrefix(nums, "["), "]"))
	for i := 0; i+1 < len(entries); i += 2 {
		all.WriteString(" " + strconv.Itoa(intOf(entries[i])+by) + " " + entries[i+1])
	}
	return all.String()
}

// refsIn are the numbers of the objects that an array refers to.
func refsIn(array string) []int {
	var all []int
	for _, r := range values(strings.TrimSuffix(strings.TrimPrefix(array, "["), "]")) {
		all = append(all, intOf(r))
	}
	return all
}

// intOf is the whole number that a text begins with; 0 if there is none.
func intOf(text string) int {
	n := 0
	for _, c := range []byte(strings.TrimLeft(text, " [")) {
		if c < '0' || c > '9' {
			break
		}
		n = n*10 + int(c-'0')
	}
	return n
}

// intAfter is the whole number after the first place of a mark; 0 if there is none.
func intAfter(text, mark string) int {
	_, after, _ := strings.Cut(text, mark)
	return intOf(after)
}
