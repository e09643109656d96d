/**
 * Reads the files a user writes (cards, plans, fixture profiles) into the models, and says
 * everything that is wrong with one of them at once, each with its place.
 *
 * <p>A file goes through three layers: its bytes become text, the text becomes a tree of maps,
 * lists and texts, and the readers give the tree its meaning. In the tree every scalar is text:
 * nothing is a number, a truth value or a time of day until a reader, which knows the key it stands
 * under, says so. SnakeYAML is used for the middle layer only, and never to construct objects.
 */
package cardproof.files;
