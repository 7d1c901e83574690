/** How the batteries of a bank share, as a picture. */
export { bankPicture, type BankPicture, type Given, type PictureUnit } from "./bank-picture.ts";
export { drawBankSharing } from "./draw-bank-sharing.ts";
