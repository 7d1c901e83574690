/** How the batteries of a bank share, as a picture. */
export { ampsText, bankPicture, type BankPicture } from "./bank-picture.ts";
export { drawBankSharing } from "./draw-bank-sharing.ts";
