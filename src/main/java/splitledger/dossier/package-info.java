/**
 * The folder an evaluation leaves: written whole beside its place and moved there at the end, with
 * copies of everything read and a manifest of digests written last. Start at {@link
 * splitledger.dossier.DossierWriter}.
 *
 * <p>May use {@code intake}, {@code evaluation}, {@code report}, {@code study}.
 */
package splitledger.dossier;
