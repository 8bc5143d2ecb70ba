package pipe

import "github.com/indexrun/indexrun/internal/words"

// wordList gathers the words of a table whose rows are named.
func wordList[R interface{ name() string }](field string, rows []R) words.List {
	list := words.List{Package: "pipe", Field: field}
	for _, row := range rows {
		list.Words = append(list.Words, row.name())
	}
	return list
}

// constants lists the values of an enumeration below count.
func constants[E ~uint8](count E) []E {
	list := make([]E, count)
	for i := range list {
		list[i] = E(i)
	}
	return list
}
