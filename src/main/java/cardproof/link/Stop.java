package cardproof.link;

/** Drops every drive and ends the session's steps. */
public record Stop() implements Message {}
