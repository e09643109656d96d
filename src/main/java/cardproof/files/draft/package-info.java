/**
 * Writes card and plan files for somebody who starts: {@link cardproof.files.draft.CardDraft} from
 * answers, {@link cardproof.files.draft.PlanDraft} from a card. Every draft is judged by reading it
 * with the readers of {@link cardproof.files}, so there are no rules or words of its own here.
 */
package cardproof.files.draft;
