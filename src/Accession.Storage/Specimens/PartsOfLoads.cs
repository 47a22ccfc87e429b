using Accession.Core.FreezerLoads;
using Accession.Core.Outcomes;
using Accession.Core.Parcels;
using Accession.Core.Specimens;
using Microsoft.EntityFrameworkCore;

namespace Accession.Storage.Specimens;

/// <summary>
/// What happens to the parts on the list of a load, of which there may be thousands: some statements that do what
/// <see cref="FreezerLoad.Settle(Part, LoadItem, Clearance?, StepPlan?, Act)"/> and its neighbours do to each of
/// them. Each is called within an act and its transaction.
/// </summary>
public sealed class PartsOfLoads(AccessionDb db)
{
    /// <summary>Puts the parts that were numbered out of a parcel on the list, as lying in it.</summary>
    /// <returns>How many.</returns>
    public async Task<int> PutInsideAsync(
        FreezerLoad load, Parcel parcel, Act act, CancellationToken cancellation)
    {
        await db.SaveChangesAsync(cancellation);
        var (loadId, parcelId, actId, version) = (load.Id, parcel.Id, act.Id, Guid.NewGuid());
        await db.Database.ExecuteSqlAsync(
            $"""
            INSERT INTO load_item (load_id, parcel_id, part_id, bundle, act_id)
            SELECT {loadId}, {parcelId}, p.id, '', {actId} FROM part p
            WHERE p.parcel_id = {parcelId} AND p.load_id IS NULL AND p.zone = 'Quarantine'
            """, cancellation);
        return await db.Database.ExecuteSqlAsync(
            $"""
            UPDATE part SET load_id = {loadId}, version = {version}
            WHERE parcel_id = {parcelId} AND load_id IS NULL AND zone = 'Quarantine'
            """, cancellation);
    }

    /// <summary>Takes the parts off the list that stand on it as lying in a parcel.</summary>
    /// <returns>How many.</returns>
    public async Task<int> TakeOutInsideAsync(
        FreezerLoad load, Parcel parcel, Act act, CancellationToken cancellation)
    {
        await db.SaveChangesAsync(cancellation);
        var (loadId, parcelId, actId, version) = (load.Id, parcel.Id, act.Id, Guid.NewGuid());
        await db.Database.ExecuteSqlAsync(
            $"""
            UPDATE part SET load_id = NULL, version = {version}
            WHERE load_id = {loadId} AND id IN (SELECT i.part_id FROM load_item i WHERE i.load_id = {loadId}
                AND i.parcel_id = {parcelId} AND i.part_id IS NOT NULL AND i.taken_off_act_id IS NULL)
            """, cancellation);
        return await db.Database.ExecuteSqlAsync(
            $"""
            UPDATE load_item SET taken_off_act_id = {actId}
            WHERE load_id = {loadId} AND parcel_id = {parcelId} AND part_id IS NOT NULL AND taken_off_act_id IS NULL
            """, cancellation);
    }

    /// <summary>Clears what is on the list, or takes it off the open list when the load cleared nothing.</summary>
    public async Task SettleAsync(
        FreezerLoad load, Clearance? clearance, Act act, CancellationToken cancellation)
    {
        await db.SaveChangesAsync(cancellation);
        var (loadId, version) = (load.Id, Guid.NewGuid());
        if (clearance is not null)
        {
            await ClearAsync(loadId, clearance, act.Id, cancellation);
        }

        await db.Database.ExecuteSqlAsync(
            $"""
            UPDATE part SET load_id = CASE WHEN load_id = {loadId} THEN NULL ELSE load_id END, version = {version}
            WHERE id IN (SELECT i.part_id FROM load_item i
                WHERE i.load_id = {loadId} AND i.part_id IS NOT NULL AND i.taken_off_act_id IS NULL)
            """, cancellation);
    }

    /// <summary>Puts the parts of one list on another, or says which of them is elsewhere by now.</summary>
    public async Task<Refusal?> RepeatAsync(
        FreezerLoad load, FreezerLoad again, Act act, CancellationToken cancellation)
    {
        await db.SaveChangesAsync(cancellation);
        var (loadId, againId, actId, version) = (load.Id, again.Id, act.Id, Guid.NewGuid());
        var gone = await db.Parts
            .Where(p => db.LoadItems.Any(i => i.LoadId == loadId && i.PartId == p.Id)
                && (p.LoadId != null || p.Zone == Zone.Outside))
            .OrderBy(p => p.Id).Select(p => p.Code).FirstOrDefaultAsync(cancellation);
        if (gone is not null)
        {
            return new(RefusalKind.Conflict,
                $"{gone} is in another load by now, or outside. A load is repeated with all that was in it.");
        }

        await db.Database.ExecuteSqlAsync(
            $"""
            INSERT INTO load_item (load_id, parcel_id, part_id, bundle, act_id)
            SELECT {againId}, i.parcel_id, i.part_id, '', {actId} FROM load_item i
            WHERE i.load_id = {loadId} AND i.part_id IS NOT NULL AND i.taken_off_act_id IS NULL
            """, cancellation);
        await db.Database.ExecuteSqlAsync(
            $"""
            UPDATE part SET load_id = {againId}, version = {version}
            WHERE id IN (SELECT i.part_id FROM load_item i WHERE i.load_id = {againId} AND i.part_id IS NOT NULL)
            """, cancellation);
        return null;
    }

    private async Task ClearAsync(long loadId, Clearance clearance, long actId, CancellationToken cancellation)
    {
        var by = clearance.By.ToString();
        var mark = (clearance.By == ClearedBy.Waiver ? StepMark.Waived : StepMark.Done).ToString();
        await db.Database.ExecuteSqlAsync(
            $"""
            INSERT INTO clearance_entry
                (part_id, act_id, cleared_at, cleared_by, may_open_from, load_id, house_rule_id, parcel_id)
            SELECT i.part_id, {actId}, l.taken_out_at, {by}, l.may_open_from, l.id,
                CAST({clearance.HouseRuleId} AS bigint), i.parcel_id
            FROM load_item i JOIN freezer_load l ON l.id = i.load_id
            WHERE i.load_id = {loadId} AND i.part_id IS NOT NULL AND i.taken_off_act_id IS NULL
            ORDER BY i.id
            """, cancellation);
        await db.Database.ExecuteSqlAsync(
            $"""
            INSERT INTO step_entry (part_id, act_id, step, mark)
            SELECT p.id, {actId}, 'Treated', {mark}
            FROM load_item i JOIN freezer_load l ON l.id = i.load_id JOIN part p ON p.id = i.part_id
            WHERE i.load_id = {loadId} AND i.taken_off_act_id IS NULL
                AND (p.came_from_outside_at IS NULL OR l.taken_out_at > p.came_from_outside_at)
            """, cancellation);
        await db.Database.ExecuteSqlAsync(
            $"""
            UPDATE part SET cleared_at = l.taken_out_at, cleared_by = {by}, may_open_from = l.may_open_from
            FROM load_item i JOIN freezer_load l ON l.id = i.load_id
            WHERE i.part_id = part.id AND i.load_id = {loadId} AND i.taken_off_act_id IS NULL
                AND (part.cleared_at IS NULL OR part.cleared_at <= l.taken_out_at)
            """, cancellation);
        // Where no plan is followed, only treatment waits, and that is settled now.
        await db.Database.ExecuteSqlAsync(
            $"""
            UPDATE part SET next_step = CASE
                WHEN plan_id IS NOT NULL THEN (SELECT n.step FROM planned_step n
                    WHERE n.plan_id = part.plan_id AND COALESCE((SELECT e.mark FROM step_entry e
                        WHERE e.part_id = part.id AND e.step = n.step ORDER BY e.id DESC LIMIT 1), 'NeededAgain')
                        = 'NeededAgain'
                    ORDER BY n.position LIMIT 1)
                WHEN COALESCE((SELECT e.mark FROM step_entry e WHERE e.part_id = part.id AND e.step = 'Treated'
                    ORDER BY e.id DESC LIMIT 1), 'Done') = 'NeededAgain' THEN 'Treated'
                ELSE NULL END
            WHERE id IN (SELECT i.part_id FROM load_item i
                WHERE i.load_id = {loadId} AND i.part_id IS NOT NULL AND i.taken_off_act_id IS NULL)
            """, cancellation);
    }
}
