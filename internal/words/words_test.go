package words_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/indexrun/indexrun/internal/words"
	"github.com/indexrun/indexrun/units"
)

type colour uint8

var colours = words.List{Package: "paint", Field: "Colour", Words: []string{"red", "dark-blue"}}

func TestWordsGoBothWays(t *testing.T) {
	for i := range uint8(2) {
		text, err := colours.Marshal(i)
		require.NoError(t, err)
		assert.Equal(t, colours.Text(i), string(text))
		var c colour
		require.NoError(t, words.Into(&colours, text, &c))
		assert.Equal(t, colour(i), c)
	}
}

func TestWordsForgiveCaseAndSpaces(t *testing.T) {
	var c colour
	require.NoError(t, words.Into(&colours, []byte(" Dark Blue "), &c))
	assert.Equal(t, colour(1), c)
}

func TestUnknownWordsAreErrorsThatListTheKnown(t *testing.T) {
	c := colour(1)
	err := words.Into(&colours, []byte("green"), &c)
	require.ErrorIs(t, err, units.ErrInvalid)
	assert.EqualError(t, err, `paint: Colour: got "green", want one of red, dark-blue`)
	assert.Equal(t, colour(1), c, "left alone")
	_, err = colours.Marshal(7)
	require.ErrorIs(t, err, units.ErrInvalid)
	assert.Equal(t, "unknown 7", colours.Text(7))
}
