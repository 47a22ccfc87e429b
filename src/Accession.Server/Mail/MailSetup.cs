using Accession.Core.Letters;
using Accession.Server.Background;
using Accession.Server.Hosting;
using Microsoft.Extensions.Options;

namespace Accession.Server.Mail;

/// <summary>Wires the mail to where the settings say that it goes.</summary>
internal static class MailSetup
{
    public static IServiceCollection AddMail(this IServiceCollection services)
    {
        services.AddSettings<MailOptions>("Mail")
            .Validate(
                mail => mail.Kind != MailKind.Smtp || !string.IsNullOrWhiteSpace(mail.Host),
                "Mail:Kind is Smtp, so Mail:Host must name the mail server.")
            .Validate(
                mail => mail.Kind != MailKind.Smtp || !string.IsNullOrWhiteSpace(mail.From),
                "Mail:Kind is Smtp, so Mail:From must say which address letters come from.")
            .Validate(
                mail => mail.From is null || LetterAddress.IsAddress(mail.From),
                "Mail:From is not one mail address; write it as herbarium@example.org.")
            .Validate(
                mail => mail.ReplyTo is null || LetterAddress.IsAddress(mail.ReplyTo),
                "Mail:ReplyTo is not one mail address; write it as herbarium@example.org.")
            .Validate(
                mail => mail.Password is null || mail.PasswordFile is null,
                "Mail:Password and Mail:PasswordFile are both set; leave one of them out.")
            .Validate(
                mail => mail.User is not null || (mail.Password is null && mail.PasswordFile is null),
                "There is a password for the mail server but no Mail:User; set the name, or leave the password out.")
            .Validate(
                mail => mail.User is null || mail.Password is not null || mail.PasswordFile is not null,
                "Mail:User is set, so Mail:Password or Mail:PasswordFile must give the password.")
            .Validate(
                mail => mail.PasswordFile is null || mail.CanReadPassword(),
                "Mail:PasswordFile cannot be read, or its first line is empty.")
            .Validate(
                mail => !mail.SendsPasswordInTheClear,
                "Mail:Security is None, so the password would cross the network in the clear; use StartTls or Tls.");
        services.AddSingleton<IPost>(provider =>
            provider.GetRequiredService<IOptions<MailOptions>>().Value.Kind == MailKind.Smtp
                ? ActivatorUtilities.CreateInstance<SmtpPost>(provider)
                : ActivatorUtilities.CreateInstance<FilePost>(provider));
        return services
            .AddSingleton<LetterMessages>()
            .AddSingleton<MailTurn>()
            .AddScoped<WriteLetter>()
            .AddScoped<SendLetter>()
            .AddScoped<HoldMail>()
            // The mail is held after a restore, so these wait with it.
            .AddWork<SendLetterWork>(SendLetterWork.Kind, AfterRestore.GoesOn);
    }
}
